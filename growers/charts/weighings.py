"""A bundle's weighings, and the moisture they tell, against the days."""

from datetime import timedelta
from typing import Any

from growers.science.units import from_si

TOP, BOTTOM = [0.56, 1.0], [0.0, 0.44]
FORTNIGHT = timedelta(days=14)


def weighings_figure(history: Any, unit: str, limit: float, labels: dict[str, str]) -> Any:
    """Weight above, moisture beneath, over one axis of days.

    Parameters
    ----------
    history : pandas.DataFrame with `on` (date), `whole_kg` (kg), `wet` (bool), `moisture`, `moisture_low`,
        `moisture_high` (fractions of the dry mass); NaN where not known. A row for each day with something.
    unit : kg or lb, for the axis of weight.
    limit : moisture at and below which it is dry enough (fraction), drawn as a line.
    labels : `mass` (with %(unit)s), `moisture` and `limit`, in the reader's language.

    Returns
    -------
    plotly.graph_objects.Figure, without colours of its own: the page lends it the site's, light or dark. `meta` names
    for each trace which of them it takes.
    """
    from plotly.graph_objects import Figure

    known = history.dropna(subset=["moisture"])
    figure = Figure(
        [weights(history, unit), *band(known), moistures(known), limit_line(history, limit, labels["limit"])]
    )
    figure.update_layout(
        template=None,
        height=460,
        margin={"l": 56, "r": 16, "t": 16, "b": 40},
        xaxis={"type": "date", "anchor": "y2", "showgrid": False},
        yaxis={"domain": TOP, "title": {"text": labels["mass"] % {"unit": unit}}, "rangemode": "tozero"},
        yaxis2={"domain": BOTTOM, "title": {"text": labels["moisture"]}, "rangemode": "tozero", "anchor": "x"},
    )
    if len(history) and history["on"].max() - history["on"].min() < FORTNIGHT:
        # Over a few days the axis would fall to marking hours.
        begins = history["on"].min() - timedelta(days=1)
        figure.update_xaxes(range=[begins.isoformat(), (begins + FORTNIGHT + timedelta(days=1)).isoformat()])
    return figure


def weights(history: Any, unit: str) -> Any:
    from plotly.graph_objects import Scatter

    weighed = history.dropna(subset=["whole_kg"])
    return Scatter(
        x=days(weighed),
        y=[round(float(from_si(kg, unit)), 3) for kg in weighed["whole_kg"]],
        mode="lines+markers",
        marker={"symbol": ["circle-open" if wet else "circle" for wet in weighed["wet"]], "size": 9},
        meta="ink",
        showlegend=False,
    )


def band(known: Any) -> list[Any]:
    """Two edges without a line, the lower filled up to the upper."""
    from plotly.graph_objects import Scatter

    bare = {"mode": "lines", "line": {"width": 0}, "meta": "band", "hoverinfo": "skip", "showlegend": False}
    edges = [("moisture_high", None), ("moisture_low", "tonexty")]
    return [Scatter(x=days(known), y=per_cent(known[edge]), yaxis="y2", fill=fill, **bare) for edge, fill in edges]


def moistures(known: Any) -> Any:
    from plotly.graph_objects import Scatter

    return Scatter(
        x=days(known),
        y=per_cent(known["moisture"]),
        yaxis="y2",
        mode="lines+markers",
        marker={"size": 9},
        meta="act",
        showlegend=False,
    )


def limit_line(history: Any, limit: float, label: str) -> Any:
    from plotly.graph_objects import Scatter

    span = [day.isoformat() for day in (history["on"].min(), history["on"].max())] if len(history) else []
    return Scatter(
        x=span,
        y=per_cent([limit] * len(span)),
        yaxis="y2",
        mode="lines+text",
        line={"dash": "dash", "width": 1.5},
        text=[label],
        textposition="top right",
        cliponaxis=False,
        meta="ink",
        showlegend=False,
    )


def days(rows: Any) -> list[str]:
    return [day.isoformat() for day in rows["on"]]


def per_cent(fractions: Any) -> list[float]:
    return [round(float(fraction) * 100, 1) for fraction in fractions]

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
    from plotly.graph_objects import Figure, Scatter

    weighed, known = history.dropna(subset=["whole_kg"]), history.dropna(subset=["moisture"])
    days = [day.isoformat() for day in known["on"]]
    figure = Figure()
    figure.add_trace(
        Scatter(
            x=[day.isoformat() for day in weighed["on"]],
            y=[round(float(from_si(kg, unit)), 3) for kg in weighed["whole_kg"]],
            mode="lines+markers",
            marker={"symbol": ["circle-open" if wet else "circle" for wet in weighed["wet"]], "size": 9},
            meta="ink",
            showlegend=False,
        )
    )
    edges = (per_cent(known["moisture_high"]), per_cent(known["moisture_low"]))
    for ys, fill in zip(edges, (None, "tonexty"), strict=True):
        figure.add_trace(
            Scatter(
                x=days,
                y=ys,
                yaxis="y2",
                mode="lines",
                line={"width": 0},
                fill=fill,
                meta="band",
                hoverinfo="skip",
                showlegend=False,
            )
        )
    figure.add_trace(
        Scatter(
            x=days,
            y=per_cent(known["moisture"]),
            yaxis="y2",
            mode="lines+markers",
            marker={"size": 9},
            meta="act",
            showlegend=False,
        )
    )
    span = [day.isoformat() for day in (history["on"].min(), history["on"].max())] if len(history) else []
    figure.add_trace(
        Scatter(
            x=span,
            y=per_cent([limit] * len(span)),
            yaxis="y2",
            mode="lines+text",
            line={"dash": "dash", "width": 1.5},
            text=[labels["limit"]],
            textposition="top right",
            cliponaxis=False,
            meta="ink",
            showlegend=False,
        )
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


def per_cent(fractions: Any) -> list[float]:
    return [round(float(fraction) * 100, 1) for fraction in fractions]

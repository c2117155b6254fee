"""What came off, winter by winter."""

from typing import Any

from growers.science.units import from_si

TOP, BOTTOM, WHOLE = [0.56, 1.0], [0.0, 0.44], [0.0, 1.0]


def yields_figure(winters: Any, unit: str, labels: dict[str, str]) -> Any:
    """Bundles tied, a bar for each winter; beneath them green weight, if any winter's was weighed.

    Parameters
    ----------
    winters : pandas.DataFrame with `winter` (its name, the oldest first), `bundles` (number tied) and `kg` (green;
        NaN where not all of it was weighed, which leaves a gap).
    unit : kg or lb, for the axis of weight.
    labels : `bundles` and `mass` (with %(unit)s), in the reader's language.

    Returns
    -------
    plotly.graph_objects.Figure, without colours of its own, as `weighings_figure`.
    """
    from plotly.graph_objects import Bar, Figure

    names = list(winters["winter"])
    weights = [None if kg != kg else round(float(from_si(kg, unit)), 1) for kg in winters["kg"]]
    figure = Figure()
    figure.add_trace(Bar(x=names, y=[int(n) for n in winters["bundles"]], meta="ink", showlegend=False))
    weighed = any(weight is not None for weight in weights)
    if weighed:
        figure.add_trace(Bar(x=names, y=weights, yaxis="y2", meta="act", showlegend=False))
        mass = {"title": {"text": labels["mass"] % {"unit": unit}}, "rangemode": "tozero"}
        figure.update_layout(yaxis2=mass | {"domain": BOTTOM, "anchor": "x"})
    figure.update_layout(
        template=None,
        height=460,
        margin={"l": 56, "r": 16, "t": 16, "b": 40},
        bargap=0.5,
        xaxis={"type": "category", "anchor": "y2" if weighed else "y", "showgrid": False},
        yaxis={"domain": TOP if weighed else WHOLE, "title": {"text": labels["bundles"]}, "rangemode": "tozero"},
    )
    return figure

"""A rod drawn to scale: butt at the left, tip running out to the right.

Only SVG presentation attributes and classes: the content security policy allows no inline style.
"""

import math
from dataclasses import dataclass

from django.utils.html import format_html
from django.utils.safestring import mark_safe

ROW_M = 2.75
WIDTH, HEIGHT, MIDDLE = 550, 26, 13
GIRTH = {"fine": 0.75, "pencil": 1.0, "stout": 1.3}
POINTS = 24
BREAK = f"M{WIDTH - 14} 24L{WIDTH - 6} 2M{WIDTH - 8} 24L{WIDTH} 2"


@dataclass(frozen=True)
class Rod:
    """`length_m` along a row of 2.75 m; `damp` the fraction of it, from the butt, that is still damp."""

    length_m: float
    type: str = "brown"
    thickness: str = "pencil"
    damp: float = 0.0
    known: str = ""

    @property
    def length(self):
        return WIDTH * min(self.length_m / ROW_M, 1)

    @property
    def runs_over(self):
        return self.length_m > ROW_M

    def half(self, x):
        """Half the thickness at x, in the drawing's units."""
        whole = WIDTH * self.length_m / ROW_M
        return (0.8 + 5.4 * max(1 - x / whole, 0) ** 0.8) * GIRTH.get(self.thickness, 1)

    def bow(self, x):
        return MIDDLE - 2.6 * math.sin(math.pi * x / max(self.length, 1))

    def outline(self):
        xs = [self.length * n / POINTS for n in range(POINTS + 1)]
        upper = [(x, self.bow(x) - self.half(x)) for x in xs]
        lower = [(x, self.bow(x) + self.half(x)) for x in reversed(xs)]
        if not self.runs_over:
            upper[-1] = (self.length, self.bow(self.length))
            lower = lower[1:]
        return "M" + "L".join(f"{x:.1f} {y:.1f}" for x, y in upper + lower) + "Z"

    def hatching(self):
        strokes = []
        x = 5.0
        while x < self.length * min(self.damp, 1) - 2:
            y, half = self.bow(x), self.half(x)
            strokes.append(f"M{x - half * 0.6:.1f} {y + half:.1f}L{x + half * 0.6:.1f} {y - half:.1f}")
            x += 6
        return "".join(strokes)

    def middle_line(self):
        xs = [8 + (self.length * 0.9 - 8) * n / POINTS for n in range(POINTS + 1)]
        return "M" + "L".join(f"{x:.1f} {self.bow(x):.1f}" for x in xs)

    def buds(self):
        """(x, y, side) of five buds, alternate."""
        for n in range(5):
            x = self.length * (0.12 + 0.17 * n)
            side = -1 if n % 2 else 1
            yield x, self.bow(x) + side * self.half(x), side


def draw(rod, title):
    parts = [format_html('<path class="rod-body" d="{}"/>', rod.outline())]
    if rod.type == "buff":
        parts.append(format_html('<path class="rod-line" d="{}"/>', rod.middle_line()))
    if rod.type in {"brown", "green"}:
        parts += [_bud(x, y, side, standing_off=rod.type == "green") for x, y, side in rod.buds()]
    if rod.damp > 0:
        parts.append(format_html('<path class="rod-damp" d="{}"/>', rod.hatching()))
    if rod.known:
        parts.append(_band(rod))
    if rod.runs_over:
        parts.append(format_html('<path class="rod-over" d="{}"/>', BREAK))
    return format_html(
        '<svg class="rod rod-{}" viewBox="0 0 {} {}" role="img" focusable="false"><title>{}</title>{}</svg>',
        rod.type,
        WIDTH,
        HEIGHT,
        title,
        mark_safe("".join(parts)),  # noqa: S308 - parts are made by format_html above
    )


def _bud(x, y, side, *, standing_off):
    if standing_off:
        path = f"M{x:.1f} {y:.1f}L{x + 9:.1f} {y + side * 5:.1f}L{x + 6:.1f} {y:.1f}Z"
    else:
        path = f"M{x:.1f} {y:.1f}Q{x + 3:.1f} {y + side * 3.6:.1f} {x + 9:.1f} {y:.1f}Z"
    return format_html('<path class="rod-bud" d="{}"/>', path)


def _band(rod):
    """The tie a third up, which says how we know."""
    x = rod.length / 3
    y, half = rod.bow(x), rod.half(x) + 2.5
    box = f"M{x - 4:.1f} {y - half:.1f}h8v{2 * half:.1f}h-8z"
    if rod.known == "word":
        notch = f"M{x - 6:.1f} {y - half:.1f}h12l-6 {half + 1:.1f}z"
        return format_html('<path class="rod-tie rod-tie-word" d="{}"/>', notch)
    return format_html('<path class="rod-tie rod-tie-{}" d="{}"/>', rod.known, box)

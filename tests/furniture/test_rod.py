import re
from xml.etree import ElementTree

import pytest

from growers.furniture.rod import ROW_M, WIDTH, Rod, draw


def xs(path):
    return [float(x) for x in re.findall(r"[ML](-?[\d.]+) ", path)]


@pytest.mark.parametrize("length_m", [0.3, 0.91, 1.524, 2.74])
def test_drawn_to_scale_with_its_butt_on_the_line(length_m):
    outline = xs(Rod(length_m).outline())
    assert min(outline) == 0
    assert max(outline) == pytest.approx(WIDTH * length_m / ROW_M, abs=0.1)


def test_a_rod_longer_than_the_row_is_broken_off_at_its_end():
    rod = Rod(3.5)
    assert max(xs(rod.outline())) == WIDTH
    assert "rod-over" in draw(rod, "long")
    assert "rod-over" not in draw(Rod(2.7), "short")


def test_thick_at_the_butt_a_point_at_the_tip():
    rod = Rod(1.5)
    halves = [rod.half(rod.length * n / 10) for n in range(11)]
    assert halves == sorted(halves, reverse=True)
    assert Rod(1.5, thickness="fine").half(0) < rod.half(0) < Rod(1.5, thickness="stout").half(0)


def test_damp_is_hatched_from_the_butt_only_as_far_as_it_goes():
    rod = Rod(2.0, damp=0.5)
    hatched = xs(rod.hatching())
    # Each stroke leans over its place by six tenths of the half thickness there.
    assert max(hatched) <= rod.length * 0.5 + 0.6 * rod.half(rod.length / 2)
    assert max(hatched) > rod.length * 0.45
    assert Rod(2.0, damp=0).hatching() == ""


def test_type_is_told_by_form_as_well_as_colour():
    shapes = {
        type_: re.findall('class="(rod-[a-z]+)', draw(Rod(1.5, type_), "x"))
        for type_ in ("brown", "green", "white", "buff", "steamed")
    }
    assert shapes["brown"].count("rod-bud") == shapes["green"].count("rod-bud") == 5
    assert "rod-line" in shapes["buff"]
    assert set(shapes["white"]) == {"rod-body"}
    brown, green = (re.findall('class="rod-bud" d="(.*?)"', draw(Rod(1.5, t), "x"))[0] for t in ("brown", "green"))
    assert brown != green


@pytest.mark.parametrize("known", ["measured", "sister", "calendar", "word"])
def test_how_we_know_is_on_the_tie(known):
    svg = ElementTree.fromstring(draw(Rod(1.5, known=known), "x"))  # noqa: S314 - our own drawing
    ties = [part for part in svg if f"rod-tie-{known}" in part.get("class", "").split()]
    assert len(ties) == 1
    assert not [part for part in svg if part.get("style")]

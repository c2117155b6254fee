from fractions import Fraction

import pytest

from growers.baskets import actions as baskets
from growers.customers import actions as customers
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.harvest import actions as harvest
from growers.science.units import read_mass
from growers.soaking import actions as soaking
from growers.stock import actions as stock
from growers.trace.fates import fates_of
from growers.trace.flow import EACH, flow_of, in_tenths, line_of, lines_by, roots_of, ways_of
from tests import ground
from tests.pages import words


def much(text):
    return read_much(text, "kg")


@pytest.fixture(autouse=True)
def may(clock):
    clock("2026-05-20 12:00")


@pytest.fixture
def winter(hand, holding, day, utc):
    """Four bundles of 6 kg of Pellock, two of 3 kg of Merrow Red, and what became of them until May."""
    pellock = ground.cut(hand, ground.planted(hand), mass=read_mass("30 kg"))
    red = ground.cut(hand, ground.planted(hand, variety="Merrow Red", bed="Top Carr"), on=day("2026-01-04"))
    tied = [ground.tied(hand, pellock, rods=100, mass=read_mass("6 kg"))[0] for _n in range(4)]
    reds = [ground.tied(hand, red, rods=100, mass=read_mass("3 kg"))[0] for _n in range(2)]

    customers.sell(**hand, bundle=tied[0], on=day("2026-02-01"), much=much("half"))

    tank = soaking.add_tank(**hand, name="Trough")
    went, out = (Moment(at, at, "") for at in (utc("2026-03-02 07:00"), utc("2026-03-07 07:00")))
    batch = soaking.put_in(**hand, bundle=tied[1], tank=tank, moment=went, much=much("the rest"))
    soaking.lift(**hand, batch=batch, moment=out)
    batch.refresh_from_db()
    basket = baskets.make_basket(**hand, name="Log basket", made_on=day("2026-03-09"))
    baskets.use_rods(**hand, basket=basket, batch=batch, much=much("half"))

    merged = stock.merge(**hand, bundles=[tied[2], reds[0]], on=day("2026-03-10")).bundles.get()
    customers.sell(**hand, bundle=merged, on=day("2026-03-11"), much=much("half"))
    gone = {"purpose": "gone", "on": day("2026-03-12")}
    stock.take_out(**hand, bundle=merged, gone="burnt", much=much("20 %"), **gone)

    outs = [stock.Out(ground.length(hand, "4 ft"), much("half")), stock.Out(ground.length(hand))]
    again = stock.regrade(**hand, bundles=[tied[3]], on=day("2026-03-14"), outs=outs, rejects=much("a tenth"))
    short = again.bundles.get(length_class__label="4 ft")
    customers.sell(**hand, bundle=short, on=day("2026-03-15"), much=much("the rest"))

    stock.take_out(**hand, bundle=reds[1], gone="mouse", much=much("25 rods"), **gone)
    stock.count(**hand, bundle=reds[1], on=day("2026-03-16"), why="unwritten", rods=60)
    return pellock, red


def part(text):
    return Fraction(text)


def test_what_became_of_each_bundle_by_hand(winter, holding):
    ends, ways = fates_of(holding)
    origins = roots_of(holding, "2025/26")
    assert [ends[origin.bundle_id] for origin in origins] == [
        # Half sold, half left.
        {"shed": part("1/2"), "sold": part("1/2")},
        # All soaked, half of that woven.
        {"woven": part("1/2"), "soaked": part("1/2")},
        # Tied together with a red one; of that half was sold and a fifth of the other half burnt.
        {"shed": part("2/5"), "sold": part("1/2"), "burnt": part("1/10")},
        # Re-graded: half to 4 ft, all of which was sold; a tenth rejected; the rest, four tenths, 5 ft again.
        {"shed": part("2/5"), "sold": part("1/2"), "rejects": part("1/10")},
        # The red one in the mixed bundle.
        {"shed": part("2/5"), "sold": part("1/2"), "burnt": part("1/10")},
        # 25 of 100 rods gone, 60 counted where 75 should have been.
        {"shed": part("3/5"), "mouse": part("1/4"), "set_right": part("3/20")},
    ]
    assert all(sum(ends[origin.bundle_id].values()) == 1 for origin in origins)
    # Two bundles tied together, one re-graded.
    assert ways_of(origins, ways) == [("tied together", "2"), ("re-graded", "1")]


def test_the_lines_add_up_to_what_was_tied(winter, holding):
    ends, _ways = fates_of(holding)
    flow = flow_of(roots_of(holding, "2025/26"), ends)
    whole = line_of(flow, EACH)
    assert (whole.tied, whole.kg, whole.unweighed) == (6, pytest.approx(30), 0)
    kgs = {cell.label: cell.kg for cell in whole.cells if cell.kg is not None}
    # Left: 6 x 1.3 + 3 x 1. Sold: 6 x 1.5 + 3 x 0.5. Mouse and count: 3 x 0.25, 3 x 0.15.
    assert kgs == {
        "still in the shed": pytest.approx(10.8), "sold": pytest.approx(10.5), "soaked and woven": pytest.approx(3),
        "soaked, not woven": pytest.approx(3), "burnt": pytest.approx(0.9), "mouse": pytest.approx(0.75),
        "rejected when made into others": pytest.approx(0.6), "set right at a count": pytest.approx(0.45),
    }  # fmt: skip
    assert sum(kgs.values()) == pytest.approx(30)
    shown = {cell.label: cell.worth for cell in whole.cells if cell.worth}
    # 0.25 and 0.15 to tenths: one goes up, so that the tenths add up to six bundles.
    assert shown == {
        "still in the shed": "2.3", "sold": "2", "soaked and woven": "0.5", "soaked, not woven": "0.5", "burnt": "0.2",
        "mouse": "0.3", "rejected when made into others": "0.1", "set right at a count": "0.1",
    }  # fmt: skip
    assert sum(round(float(worth) * 10) for worth in shown.values()) == 60


@pytest.mark.parametrize(
    ("by", "lines"),
    [
        ("planting", [("Merrow Red – Top Carr", 2), ("Pellock – Beck Side", 4)]),
        ("variety", [("Merrow Red", 2), ("Pellock", 4)]),
        ("length", [("5 ft", 6)]),
    ],
)
def test_planting_variety_and_length_have_each_their_own(winter, holding, by, lines):
    ends, _ways = fates_of(holding)
    found = lines_by(flow_of(roots_of(holding, "2025/26"), ends), by)
    assert [(line.of.name, line.tied) for line in found] == lines
    for line in found:
        assert sum(cell.part for cell in line.cells) == pytest.approx(1)
        assert sum(cell.kg or 0 for cell in line.cells) == pytest.approx(line.kg)


def test_the_pages_tell_it(winter, pages):
    text = pages.text("trace:winter_flow", 2025)
    assert "Where winter 2025/26 went" in text
    assert "6 bundles began here, 30 kg as tied" in text
    assert "still in the shed 2.3 about 11 kg" in text
    assert "All that was tied 6 30 kg" in text
    assert "On the way: tied together, 2; re-graded, 1." in text
    for by in ("planting", "variety", "length"):
        assert "Pellock" in pages.text("trace:winter_flow", 2025, by=by)
    assert pages.client.get(pages.address("trace:latest_winter")).url == pages.address("trace:winter_flow", 2025)


def test_two_winters_are_kept_apart(winter, hand, pages, day):
    pellock = winter[0].planting
    later = ground.cut(hand, pellock, on=day("2026-12-30"))
    ground.tied(hand, later, on=day("2027-01-10"))
    assert "1 bundle began here" in pages.text("trace:winter_flow", 2026)
    assert "6 bundles began here" in pages.text("trace:winter_flow", 2025)


def test_nothing_weighed_is_told_in_bundles_alone(hand, pages, day):
    this = ground.cut(hand, ground.planted(hand), bundles=2)
    ground.tied(hand, this, how_many=2)
    text = pages.text("trace:winter_flow", 2025)
    assert "still in the shed 2 All that was tied 2" in text
    assert "kg" not in text[text.index("What became of the bundles") :]


def test_bundles_not_weighed_are_counted_beside_the_weight(hand, pages):
    this = ground.cut(hand, ground.planted(hand))
    ground.tied(hand, this, mass=read_mass("6 kg"))
    ground.tied(hand, this)
    assert "2 bundles began here, 6 kg as tied and 1 not weighed" in pages.text("trace:winter_flow", 2025)


def test_green_rods_are_told_before_the_bench_and_not_among_the_bundles(hand, pages, day):
    this = ground.cut(hand, ground.planted(hand), mass=read_mass("20 kg"))
    harvest.green_out(**hand, cut=this, on=day("2025-12-29"), what="rods", where="sold", mass=read_mass("5 kg"))
    ground.tied(hand, this, mass=read_mass("15 kg"))
    text = pages.text("trace:winter_flow", 2025)
    assert "green rods, 5 kg" in text
    assert "1 bundle began here, 15 kg as tied" in text


def test_an_empty_winter_and_one_that_is_none(pages):
    assert "Nothing of winter 2019/20 is in the book." in pages.text("trace:winter_flow", 2019)
    assert pages.client.get(pages.address("trace:winter_flow", 0)).status_code == 404
    assert pages.client.get(pages.address("trace:winter_flow", 99999)).status_code == 404
    assert pages.client.get(pages.address("trace:latest_winter")).status_code == 302


def test_another_holdings_winter_shows_nothing_of_ours(client, ida, other, winter):
    client.force_login(ida)
    answer = client.get("/nether-sallow/trace/winter/2025/")
    assert "Pellock" not in words(answer)


@pytest.mark.parametrize(
    ("worths", "whole", "shown"),
    [
        ([1.0, 2.0], 3, ["1", "2"]),
        ([1 / 3, 1 / 3, 1 / 3], 1, ["0.4", "0.3", "0.3"]),
        # Next to nothing, but something.
        ([2.99, 0.01, 0.0], 3, ["3", "under 0.1", ""]),
        # A count that found more than the book said.
        ([0.7, 0.5, -0.2], 1, ["0.7", "0.5", "-0.2"]),
    ],
)
def test_tenths_that_are_shown_add_up(worths, whole, shown):
    assert in_tenths(worths, whole) == shown

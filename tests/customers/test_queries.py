import pytest

from growers.bundles.models import Bundle
from growers.customers.models import Sheet
from growers.customers.queries import lines_of, sheet_says, total_of, wording
from growers.drying import actions as drying
from growers.science import units
from tests import ground


@pytest.mark.parametrize(
    ("days", "said"),
    [
        (4.0, "4 days"),
        (3.5, "3½ days"),
        (3.3, "3½ days"),
        (3.2, "3 days"),
        (1.0, "1 day"),
        (0.5, "12 hours"),
        (1 / 48, "½ hour"),
    ],
)
def test_days_to_the_nearest_half(days, said):
    assert wording.days(days) == said


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (5.0, 6.0, "5 to 6 days"),
        (4.5, 4.5, "about 4½ days"),
        (0.5 / 24, 0.5, "½ to 12 hours"),  # half an hour to half a day: peeled rods
        (0.75, 1.5, "18 hours to 1½ days"),
    ],
)
def test_a_span_of_days(low, high, said):
    assert wording.span(low, high) == said


def test_the_longest_length_has_no_end(hand, cut, holding, day):
    longest = ground.length(hand, "9 ft")
    ground.tied(hand, cut, label="9 ft", on=day("2026-01-12"))
    says = sheet_says(Sheet(holding=holding, variety=cut.planting.variety), day("2026-02-01"), "kg")
    (length,) = says.lengths
    assert length.length_class == longest
    assert length.rule == "9 days or more"  # 2.7432 m / 0.3048 m = 9


def test_dry_rods_in_a_kilo_and_in_a_pound(hand, holding, bundle, pellock, day):
    sheet = Sheet(holding=holding, variety=pellock)
    # A hundred rods of 6 kg as tied, green: says nothing of dry rods.
    assert sheet_says(sheet, day("2026-08-02"), "kg").lengths[0].rods_in is None
    drying.weigh(**hand, bundle=bundle, on=day("2026-08-01"), mass=units.read_mass("3.2 kg"))
    # 100 rods / 3.2 kg = 31.25 in a kilo; × 0.45359237 kg = 14.17 in a pound.
    assert sheet_says(sheet, day("2026-08-02"), "kg").lengths[0].rods_in == (31, 31)
    assert sheet_says(sheet, day("2026-08-02"), "lb").lengths[0].rods_in == (14, 14)


def test_a_mixed_bundle_feeds_no_variety(hand, holding, cut, bundle, pellock, day):
    from growers.stock import actions as stock

    other = ground.cut(hand, ground.planted(hand, variety="Merrow Red", bed="Top Carr"))
    second = ground.tied(hand, other, on=day("2026-01-15"), label="4 ft", mass=units.read_mass("2 kg"))[0]
    four = ground.length(hand, "4 ft")
    stock.merge(**hand, bundles=[bundle, second], on=day("2026-03-01"), length_class=four)
    mixed = Bundle.objects.get(made="making")
    says = sheet_says(Sheet(holding=holding, bundle=mixed), day("2026-03-02"), "kg")
    assert says.mixed
    assert says.bounds is None
    # Of Pellock alone there is the 5 ft bundle; the mixed one of 4 ft does not count as Pellock.
    of_pellock = sheet_says(Sheet(holding=holding, variety=pellock), day("2026-03-02"), "kg")
    assert [each.length_class.label for each in of_pellock.lengths] == ["5 ft"]


def test_white_rods_are_told_hours_and_their_own_keeping(hand, holding, bundle, day):
    from growers.stock import actions as stock

    out = stock.Out(length_class=bundle.length_class)
    stock.make_into(**hand, bundles=[bundle], on=day("2026-05-01"), type="white", outs=[out])
    says = sheet_says(Sheet(holding=holding, bundle=Bundle.objects.get(type="white")), day("2026-05-02"), "kg")
    assert says.peeled
    assert says.lengths[0].rule == "½ to 12 hours"
    assert says.keeps_days == 2


def test_a_sale_is_added_up_by_currency(sell, holding, orla):
    from decimal import Decimal

    sale = sell("1 kg", customer=orla, price=Decimal("12.50")).sale
    sell("1 kg", customer=orla, price=Decimal("13.25"))
    sell("1 kg", customer=orla)
    assert total_of(lines_of(holding, [sale])[sale.pk]) == {"GBP": Decimal("25.75")}

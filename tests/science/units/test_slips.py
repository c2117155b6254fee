import pytest

from growers.science.units import SLIPS, as_meant, likely_slip, likely_slip_and_meant


@pytest.mark.parametrize(
    ("value", "low", "high", "kind", "slip", "meant"),
    [
        (13.2, 4, 7, "mass", "lb_for_kg", 5.987),  # 13.2 lb
        (61, 4, 7, "mass", "tenfold", 6.1),
        (0.61, 4, 7, "mass", "tenth", 6.1),
        (6100, 4, 7, "mass", "g_for_kg", 6.1),
        (5, 1, 2.5, "length", "ft_for_m", 1.524),
        (152, 1, 2.5, "length", "cm_for_m", 1.52),
        (15.2, 1, 2.5, "length", "tenfold", 1.52),
        (0.0009, 0.004, 0.02, "thickness", "tenth", 0.009),  # 0.9 mm: cm for mm
        (50, 2, 20, "temperature", "f_for_c", 10),
        (120, 5, 20, "count", "tenfold", 12),
    ],
)
def test_the_slips_of_the_trade(value, low, high, kind, slip, meant):
    assert likely_slip(value, low, high, kind) == slip
    assert likely_slip_and_meant(value, low, high, kind) == (slip, pytest.approx(meant, abs=0.001))


@pytest.mark.parametrize(
    ("value", "kind"),
    [(5, "mass"), (4, "mass"), (7, "mass"), (1e9, "mass"), (-5, "mass"), (21, "humidity")],
)
def test_no_slip_explains_it(value, kind):
    assert likely_slip(value, 4, 7, kind) is None


def test_only_slips_of_the_unit_typed():
    # 13.2 kg could be 13.2 lb, but "29 lb" (13.2 kg) was typed in pounds.
    assert likely_slip(13.2, 4, 7, "mass", "kg") == "lb_for_kg"
    assert likely_slip(13.2, 4, 7, "mass", "lb") is None
    assert likely_slip(54 * 0.3048, 1, 2.5, "length", "ft") == "in_for_ft"
    # "5 lb" meant as 5 kg
    assert likely_slip(2.268, 4, 7, "mass", "lb") == "kg_for_lb"


@pytest.mark.parametrize("slip", SLIPS)
def test_every_slip_is_found_for_each_kind_it_happens_to(slip):
    for kind in SLIPS[slip].kinds:
        for unit in SLIPS[slip].typed or ("",):
            meant = as_meant(1000.0, slip)
            assert likely_slip(1000.0, meant - 1e-9, meant + 1e-9, kind, unit) == slip

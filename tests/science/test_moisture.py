import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growers.science.moisture import (
    COLDEST_FITTED_C,
    DAMPEST,
    daily_equilibrium,
    dry_from_wet_basis,
    drying_pace,
    equilibrium_moisture,
    mean_equilibrium,
    moisture_dry_basis,
    wet_from_dry_basis,
)

TEMPERATURE = st.floats(min_value=-40, max_value=60)
HUMIDITY = st.floats(min_value=0, max_value=1)


class TestEquilibrium:
    def test_shapes(self):
        assert type(equilibrium_moisture(20, 0.5)) is float
        assert equilibrium_moisture([20.0, 10.0], 0.5).shape == (2,)
        assert equilibrium_moisture(np.full((3, 1), 20.0), np.full(4, 0.5)).shape == (3, 4)
        assert equilibrium_moisture([], []).shape == (0,)

    def test_bone_dry_air_takes_all(self):
        assert equilibrium_moisture(20, 0.0) == 0.0

    def test_a_missing_hour_stays_missing(self):
        rest = equilibrium_moisture([20, np.nan, 20], [0.5, 0.5, np.nan])
        assert np.isnan(rest).tolist() == [False, True, True]

    def test_fog_is_taken_for_very_damp_air(self):
        assert equilibrium_moisture(10, 1.0) == equilibrium_moisture(10, DAMPEST)
        assert equilibrium_moisture(10, 0.98) < equilibrium_moisture(10, DAMPEST) < 0.30

    def test_hard_frost_is_taken_for_the_coldest_air_of_the_table(self):
        assert equilibrium_moisture(-15, 0.8) == equilibrium_moisture(COLDEST_FITTED_C, 0.8)

    @pytest.mark.parametrize(
        ("temperature", "humidity", "hint"),
        [(20, 85, "per cent"), (20, -0.1, "per cent"), (68, 0.5, "°F"), (-41, 0.5, "°F"), (np.inf, 0.5, "°F")],
    )
    def test_nonsense(self, temperature, humidity, hint):
        with pytest.raises(ValueError, match=hint):
            equilibrium_moisture(temperature, humidity)
        with pytest.raises(ValueError, match=hint):
            equilibrium_moisture([10, temperature], [0.5, humidity])

    @given(TEMPERATURE, HUMIDITY, HUMIDITY)
    def test_damper_air_never_means_drier_wood(self, temperature, one, other):
        drier, damper = sorted((one, other))
        assert equilibrium_moisture(temperature, drier) <= equilibrium_moisture(temperature, damper)

    @given(TEMPERATURE, HUMIDITY)
    def test_always_wood_that_holds_no_free_water(self, temperature, humidity):
        assert 0 <= equilibrium_moisture(temperature, humidity) < 0.30


class TestPace:
    def test_is_one_at_ten_degrees(self):
        assert drying_pace(10) == 1.0

    @given(TEMPERATURE, TEMPERATURE)
    def test_rises_with_warmth(self, one, other):
        colder, warmer = sorted((one, other))
        assert 0 < drying_pace(colder) <= drying_pace(warmer)


class TestMeanEquilibrium:
    def test_of_steady_air_is_that_of_the_air(self):
        assert mean_equilibrium([15] * 24, 0.7) == pytest.approx(equilibrium_moisture(15, 0.7))

    def test_warm_hours_count_for_more(self):
        wet_and_cold, dry_and_warm = equilibrium_moisture(0, 0.9), equilibrium_moisture(20, 0.5)
        plain = (wet_and_cold + dry_and_warm) / 2
        assert mean_equilibrium([0, 20], [0.9, 0.5]) < plain
        assert mean_equilibrium([0, 20], [0.9, 0.5], weights=1) == pytest.approx(plain)
        assert mean_equilibrium([0, 20], [0.9, 0.5], weights=[1, 3]) == pytest.approx(
            (wet_and_cold + 3 * dry_and_warm) / 4
        )

    def test_missing_hours_are_left_out(self):
        assert mean_equilibrium([15, np.nan, 3], [0.7, 0.7, np.nan]) == pytest.approx(equilibrium_moisture(15, 0.7))

    @pytest.mark.parametrize(("humidity", "weights"), [([np.nan] * 2, None), ([0.5, 0.5], 0)])
    def test_nothing_to_go_by(self, humidity, weights):
        assert np.isnan(mean_equilibrium([15, 15], humidity, weights))

    @pytest.mark.parametrize("weights", [[1, -1], [1, np.nan]])
    def test_weights_that_are_none(self, weights):
        with pytest.raises(ValueError, match="weights"):
            mean_equilibrium([15, 15], [0.5, 0.5], weights)


class TestDailyEquilibrium:
    HOURS = pd.date_range("2026-03-28", periods=72, freq="h")

    def test_a_day_is_its_hours(self):
        temperature, humidity = np.linspace(-3, 18, 72), np.linspace(0.95, 0.4, 72)
        days = daily_equilibrium(self.HOURS, temperature, humidity)
        assert list(days.columns) == ["moisture", "pace", "hours"]
        assert days.index.tolist() == list(pd.date_range("2026-03-28", periods=3))
        for number, moisture in enumerate(days["moisture"]):
            hours = slice(24 * number, 24 * number + 24)
            assert moisture == pytest.approx(mean_equilibrium(temperature[hours], humidity[hours]))

    def test_gaps(self):
        humidity = np.full(72, 0.7)
        humidity[10:50] = np.nan
        days = daily_equilibrium(self.HOURS, np.full(72, 15.0), humidity)
        assert days["hours"].tolist() == [10, 0, 22]
        assert days["moisture"].isna().tolist() == [False, True, False]
        assert days["pace"].isna().tolist() == [False, True, False]

    def test_a_day_without_a_row_is_there_too(self):
        days = daily_equilibrium(["2026-03-28 12:00", "2026-03-30 12:00"], [15, 15], [0.7, 0.7])
        assert days["hours"].tolist() == [1, 0, 1]

    def test_days_are_those_of_the_zone(self):
        hours = pd.date_range("2026-03-28", "2026-03-30", freq="h", tz="Europe/London", inclusive="left")
        days = daily_equilibrium(hours, np.full(len(hours), 15.0), np.full(len(hours), 0.7))
        assert days["hours"].tolist() == [24, 23]  # the clocks go forward on the 29th

    def test_order_does_not_matter(self):
        temperature, humidity = np.linspace(-3, 18, 72), np.linspace(0.95, 0.4, 72)
        backwards = daily_equilibrium(self.HOURS[::-1], temperature[::-1], humidity[::-1])
        pd.testing.assert_frame_equal(backwards, daily_equilibrium(self.HOURS, temperature, humidity))

    def test_no_hours_no_days(self):
        assert daily_equilibrium([], [], []).empty

    def test_nonsense(self):
        with pytest.raises(ValueError, match="one length"):
            daily_equilibrium(self.HOURS, [15.0], [0.7])
        with pytest.raises(ValueError, match="instant"):
            daily_equilibrium([pd.NaT], [15.0], [0.7])
        with pytest.raises(ValueError, match="per cent"):
            daily_equilibrium(self.HOURS[:1], [15.0], [70.0])


class TestBases:
    def test_by_hand(self):
        assert moisture_dry_basis(3.0, 2.0) == 0.5
        assert wet_from_dry_basis(0.25) == 0.2
        assert dry_from_wet_basis(0.5) == 1.0
        assert moisture_dry_basis([3.0, 2.2], [2.0, 2.0]) == pytest.approx([0.5, 0.1])

    @given(st.floats(min_value=0, max_value=5))
    def test_there_and_back(self, moisture):
        assert dry_from_wet_basis(wet_from_dry_basis(moisture)) == pytest.approx(moisture, abs=1e-12)

    @pytest.mark.parametrize(("wet", "dry", "why"), [(1, 0, "above 0"), (1, -1, "above 0"), (1, 2, "wrong way round")])
    def test_masses_that_cannot_be(self, wet, dry, why):
        with pytest.raises(ValueError, match=why):
            moisture_dry_basis(wet, dry)

    def test_fractions_that_cannot_be(self):
        with pytest.raises(ValueError, match="per cent"):
            dry_from_wet_basis(1.0)
        with pytest.raises(ValueError, match="moisture"):
            wet_from_dry_basis(-0.1)

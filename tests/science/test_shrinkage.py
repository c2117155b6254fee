import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from growers.science.shrinkage import (
    FIBRE_SATURATION,
    GREEN_TO_OVEN_DRY,
    moisture_at_limit,
    shrinkage,
    shrinkage_to_come,
)

MOISTURE = st.floats(min_value=0, max_value=2)
AT_REST = st.floats(min_value=0, max_value=0.28)


def test_shapes():
    assert type(shrinkage(0.15)) is float
    assert shrinkage([0.15, 0.4]) == pytest.approx([0.0435, 0.0])  # 8.7 % x 15/30
    assert shrinkage_to_come(np.full((2, 1), 0.2), [0.09, 0.1, 0.11]).shape == (2, 3)
    assert np.isnan(shrinkage([np.nan, 0.1])).tolist() == [True, False]


@given(MOISTURE, MOISTURE)
def test_drier_never_means_thicker(one, other):
    drier, damper = sorted((one, other))
    assert GREEN_TO_OVEN_DRY >= shrinkage(drier) >= shrinkage(damper) >= 0


@given(MOISTURE, AT_REST)
def test_what_has_shrunk_and_what_is_to_come_make_the_whole(moisture, rest):
    assert shrinkage(moisture) + shrinkage_to_come(moisture, rest) == pytest.approx(shrinkage(rest))


def test_a_rod_drier_than_the_room_will_swell():
    assert shrinkage_to_come(0.08, 0.1) == pytest.approx(-0.0058)  # 8.7 % x 2/30
    assert shrinkage_to_come(0.1, 0.1) == 0


@given(st.floats(min_value=0, max_value=1), AT_REST)
def test_the_moisture_at_a_limit_has_just_the_limit_to_come(part, rest):
    limit = part * shrinkage(rest) * (1 - 1e-12)
    moisture = moisture_at_limit(limit, rest)
    assert rest <= moisture <= FIBRE_SATURATION * (1 + 1e-12)
    assert shrinkage_to_come(moisture, rest) == pytest.approx(limit, abs=1e-12)


def test_another_wood():
    assert shrinkage(0.15, 0.10) == pytest.approx(0.05)
    assert moisture_at_limit(0.02, 0.09, 0.10) == pytest.approx(0.15)  # 9 % + 2 % x 30/10


@pytest.mark.parametrize(
    ("call", "why"),
    [
        (lambda: shrinkage(-0.01), "moisture"),
        (lambda: shrinkage(16), "per cent"),
        (lambda: shrinkage(0.16, 8.7), "green_to_oven_dry"),
        (lambda: shrinkage(0.16, 0), "green_to_oven_dry"),
        (lambda: shrinkage_to_come(0.16, 9.3), "per cent"),
        (lambda: moisture_at_limit(2, 0.093), "per cent"),
        (lambda: moisture_at_limit(-0.01, 0.093), "limit"),
        (lambda: moisture_at_limit(0.07, 0.093), "more than a green rod"),
        (lambda: moisture_at_limit(0.01, 0.35), "settles_at"),
    ],
)
def test_nonsense(call, why):
    with pytest.raises(ValueError, match=why):
        call()

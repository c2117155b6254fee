import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from growers.people.rules import name_key, tidy, winter_of, winter_span


@pytest.mark.parametrize(
    ("on", "begins", "winter"),
    [
        ("2025-12-28", 7, "2025/26"),
        ("2026-01-04", 7, "2025/26"),
        ("2025-07-01", 7, "2025/26"),
        ("2025-06-30", 7, "2024/25"),
        ("1999-12-28", 7, "1999/00"),
        ("2026-07-10", 1, "2026"),
        ("2026-01-01", 1, "2026"),
        ("2025-12-31", 1, "2025"),
        ("2025-09-30", 10, "2024/25"),
    ],
)
def test_the_winter_of_a_day(on, begins, winter):
    assert winter_of(dt.date.fromisoformat(on), begins) == winter


@pytest.mark.parametrize("begins", range(1, 13))
def test_every_day_stands_in_the_span_of_its_winter(begins):
    for days in range(800):
        on = dt.date(2024, 1, 1) + dt.timedelta(days=days)
        first, after = winter_span(winter_of(on, begins), begins)
        assert first <= on < after


def test_names_are_compared_as_people_mean_them():
    assert name_key("  Merrow\tRED ") == name_key("Merrow Red")
    assert name_key("Straße") == name_key("STRASSE")
    assert name_key("ﬁne") == name_key("fine")
    assert name_key("Pellock") != name_key("Pellok")
    assert tidy("  Long   Hesper ") == "Long Hesper"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("WEISSE WEIDE", "weiße Weide"),
        ("Ｐｅｌｌｏｃｋ　２", "Pellock 2"),  # full-width
        ("ﺻﻔﺼﺎﻑ", "صفصاف"),  # Arabic, as shaped for print and as typed
        ("İnce Söğüt", "i̇nce söğüt"),  # the Turkish dotted capital
        ("Cafe\u0301", "CAFÉ"),
    ],
)
def test_names_that_are_the_same_in_every_script(one, other):
    assert name_key(one) == name_key(other)


@given(st.text())
def test_a_key_is_its_own_key(name):
    assert name_key(name_key(name)) == name_key(name)

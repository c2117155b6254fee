import pytest

from growers.furniture.echo import KINDS, understood


def heard(book, kind, text):
    return understood(kind, text, book["holding"], book["today"], book["now"])


def test_says_what_was_understood_or_what_is_wrong(book):
    assert heard(book, "mass", "12 lb 3 oz") == "12 lb 3 oz = 5.53 kg"
    assert heard(book, "mass", "3 m") == "“3 m” is a length; a weight is wanted, such as 3.2 kg or 7 lb 1 oz."
    assert heard(book, "day", "28 Dec") == "Sun 28 Dec 2025"
    assert heard(book, "coming_day", "28 Dec") == "Mon 28 Dec 2026"
    assert heard(book, "moment", "yesterday 7:10") == "Mon 23 Nov 2026, 7:10"


def test_nothing_is_said_of_nothing_or_of_what_we_do_not_know(book):
    assert heard(book, "colour", "red") == ""
    assert heard(book, "mass", "1" * 5000) == ""
    assert [heard(book, kind, "  ") for kind in KINDS] == [""] * len(KINDS)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("text", ["<b>", "\x00", "½½½", "∞", "-", "9" * 60, "ا", "1e999", "nan", "12:12:12:12", "%"])
def test_whatever_is_typed_gets_a_sentence_and_never_breaks(book, kind, text):
    assert isinstance(heard(book, kind, text), str)

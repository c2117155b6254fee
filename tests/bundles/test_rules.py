import pytest

from growers.bundles.rules import WHOLE, divide, is_tag, parts, read_tag, shown


def test_a_tag_is_read_however_it_is_typed():
    assert read_tag(" 482 17-74 ") == "4821774"
    assert read_tag("٤٨٢ ١٧ ٧٤") == "4821774"
    assert read_tag("482²") == "482"
    assert shown("4821774") == "482 17 74"


@pytest.mark.parametrize("code", ["", "482177", "4821775", "48217740", "482177a", "٤٨٢١٧٧٤"])
def test_what_is_no_tag(code):
    assert not is_tag(code)


def test_pieces_add_up_to_the_whole_exactly():
    # 1/3 each of 10: 3.33 each, the odd part goes to the first.
    assert divide(10, [1, 1, 1]) == [4, 3, 3]
    assert divide(WHOLE, [0.3, 0.6, 0.1]) == [300_000_000, 600_000_000, 100_000_000]
    assert sum(divide(WHOLE, [1, 2, 4])) == WHOLE


def test_a_part_is_within_the_thing():
    assert parts(1 / 3) == 333_333_333
    assert parts(1.2) == WHOLE
    assert parts(-0.1) == 0

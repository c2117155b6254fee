"""Tag codes against another user of the same check digits: ISO/IEC 7064, MOD 97-10.

Bank account numbers carry these check digits (ISO 13616). The fictitious GB82 WEST 1234 5698 7654 32 is the worked
example of Wikipedia, "International Bank Account Number", section "Validating the IBAN" (also of Rosetta Code, "IBAN"):
its first four characters go to the end, letters become 10 to 35, and 3214282912345698765432161182 leaves 1 by 97.
"""

import itertools

import pytest

from growers.bundles.rules import is_tag, with_check_digits

EXAMPLE = "GB82WEST12345698765432"


def as_figures(account):
    turned = account[4:] + account[:2] + account[2:4]
    return "".join(str(int(c, 36)) for c in turned)


def test_the_published_number_gets_the_published_check_digits():
    figures = as_figures(EXAMPLE)
    assert figures == "3214282912345698765432161182"
    assert with_check_digits(int(figures[:-2])) == figures


@pytest.mark.parametrize(
    ("number", "code"),
    [
        (48217, "4821774"),  # 4821700 - 97 x 49708 = 24; 98 - 24 = 74
        (96, "0009604"),  # 9600 - 97 x 98 = 94; 98 - 94 = 4
        (99999, "9999925"),  # 9999900 - 97 x 103091 = 73; 98 - 73 = 25
        (0, "0000098"),  # nothing left over; 98 - 0 = 98
    ],
)
def test_check_digits_by_hand(number, code):
    assert with_check_digits(number) == code
    assert int(code) % 97 == 1  # the system's own definition


def test_every_slip_of_one_figure_or_two_neighbours_is_caught():
    """What MOD 97-10 promises: all single wrong figures, and all neighbours changed over."""
    for number in (0, 1, 48217, 50505, 99999):
        code = with_check_digits(number)
        for place, figure in itertools.product(range(7), "0123456789"):
            wrong = code[:place] + figure + code[place + 1 :]
            assert is_tag(wrong) == (wrong == code)
        for place in range(6):
            swapped = code[:place] + code[place + 1] + code[place] + code[place + 2 :]
            assert is_tag(swapped) == (swapped == code)

import pytest

from growers.baskets import actions
from tests.soaking.conftest import batch, bundle, cut, five_foot, lift, moment, pellock, put_in, tank, utc  # noqa: F401


@pytest.fixture
def shopper(hand, day):
    return actions.make_basket(**hand, name="Shopper", made_on=day("2026-03-12"))

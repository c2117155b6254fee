"""What the random winters found, each by itself."""

from datetime import timedelta

import pytest

from growers.bundles import actions as bundles
from growers.customers.models import Complaint
from growers.drying import actions as drying
from growers.furniture.refusals import Refusal
from growers.science.units import read_mass
from tests.ledger.book import LATER


def test_a_bundle_complained_of_was_tied_by_then(book):
    back = Complaint.objects.exclude(bundle=None).get(holding=book.book.holding).bundle
    with pytest.raises(Refusal, match="complained of it") as refused:
        book.book.do(bundles.correct_bundle, bundle=back, tied_on=LATER + timedelta(days=1))
    assert refused.value.field == "tied_on"


def test_rods_wetter_than_any_willow_are_no_oven_test(book):
    # 4.5 kg and 10 g: moisture 449, for which no drying can be reckoned. 60 g and 10 g, moisture 5, is the most.
    said = {"of": book.reds[0], "on": LATER, "dry_g": read_mass("10 g")}
    with pytest.raises(Refusal, match="look at both weights"):
        book.book.do(drying.oven_test, wet_g=read_mass("4.5 kg"), **said)
    book.book.do(drying.oven_test, wet_g=read_mass("60 g"), **said)
    assert book.reds[0].pk in drying.judged(book.reds[:1], LATER)

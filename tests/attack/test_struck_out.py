"""Whatever is struck out, with all that stands on it, and put back: the book stays sound and whole."""

from django.db import transaction

from growers.exchange.queries import doctor
from growers.furniture.refusals import Refusal
from growers.people import actions, queries
from tests.attack.house import entries
from tests.ledger.book import NOON

WHY = {"reason": "attacked", "at": NOON}
# A lift’s rods have been used since, and an answer or an origin is part of its bundle: that is named.
NAMES_ANOTHER = {"lift", "drynessanswer", "origin"}


def living(holding):
    return {record.uid: record for found in entries(holding).values() for record in found}


def put_all_back(records, by):
    """Put back in whatever order it can be done, as somebody would by hand."""
    left = list(records)
    while left:
        refused = [record for record in left if not put_back(record, by)]
        assert len(refused) < len(left), f"can't be put back: {refused[:3]}"
        left = refused


def put_back(record, by):
    try:
        actions.put_back(record=record, by=by)
    except Refusal:
        return False
    return True


def gone_and_back(mine, wren, records):
    """Strike these out with all that stands on them, and put all that went back; the doctor looks after each."""
    whole = living(mine)
    for record in records:
        try:
            actions.strike_out(record=record, by=wren, with_what_stands_on_it=True, **WHY)
        except Refusal:
            assert record.kind in NAMES_ANOTHER
    faults = doctor(mine)
    left = living(mine)
    put_all_back([record for uid, record in reversed(whole.items()) if uid not in left], wren)
    assert faults + doctor(mine) == [], records
    assert living(mine).keys() == whole.keys(), records


def test_what_stands_alone_goes_and_comes_back(mine, wren, everything):
    alone = [found[-1] for found in everything.values() if not any(queries.standing_on(found[-1]))]
    assert len(alone) > 15
    gone_and_back(mine, wren, [record for record in alone if record.kind != "scalecorrection"])


def test_what_others_stand_on_goes_with_them_and_all_comes_back(mine, wren, everything):
    under = [found[0] for found in everything.values() if any(queries.standing_on(found[0]))]
    assert len(under) > 15
    for record in under:
        with transaction.atomic():
            gone_and_back(mine, wren, [record])
            transaction.set_rollback(True)

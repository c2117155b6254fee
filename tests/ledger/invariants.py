"""What must hold after every step, reckoned anew in plain fractions from the rows."""

from collections import defaultdict
from datetime import date
from fractions import Fraction

from django.db import connection

from growers.bundles import queries as bundles
from growers.bundles.models import Adjustment, Bundle, Grading, Making, Origin, Taking
from growers.customers.models import Returned
from growers.exchange.queries import doctor
from growers.exchange.rules.entries import entry_models
from growers.harvest.models import Cut
from growers.soaking.models import Batch, DriedAgain
from growers.stock import queries as stock
from growers.trace.fates import fates_of

WHOLE = 1_000_000_000
DOOMSDAY = date(9999, 1, 1)


def snapshot():
    """Every row of every kind of entry, as it stands in the database."""
    with connection.cursor() as cursor:
        return {table: rows_of(cursor, table) for table in sorted(model._meta.db_table for model in entry_models())}


def rows_of(cursor, table):
    cursor.execute(f"SELECT * FROM {table} ORDER BY id")  # noqa: S608 - our own tables
    return cursor.fetchall()


def check(holding):
    faults = [f"{fault.rule.code} {fault}" for fault in doctor(holding)]
    assert not faults, faults
    flow = Flow(holding)
    flow.nothing_is_lost()
    flow.no_ancestry_is_lost()
    flow.all_that_was_tied_went_somewhere()


class Flow:
    """The dry matter of a book: each bundle tied from a cut, bought or found counts one, and flows on from there.

    Contents are {source: amount} where a source is a relation's name and the id of what it points to.
    """

    def __init__(self, holding):
        self.holding = holding
        self.bundles = {each.pk: each for each in Bundle.objects.of(holding)}
        self.origins, self.takings, self.went_in = defaultdict(list), defaultdict(list), defaultdict(list)
        for origin in Origin.objects.of(holding):
            self.origins[origin.bundle_id].append(origin)
        for taking in Taking.objects.of(holding):
            self.takings[taking.bundle_id].append(taking)
            self.went_in[taking.making_id].append(taking)
        self.right = defaultdict(int)
        for each in Adjustment.objects.of(holding):
            self.right[each.bundle_id] += each.share_ppb
        dried = DriedAgain.objects.of(holding).select_related("batch__taking")
        returned = Returned.objects.of(holding).select_related("line__taking")
        self.came_back = {each.bundle_id: (each.batch.taking, each.part_ppb) for each in dried}
        self.came_back |= {each.bundle_id: (each.line.taking, each.part_ppb) for each in returned}
        self.known = {}

    def tied(self, bundle):
        """What a bundle that was not made from others began with."""
        [origin] = self.origins[bundle.pk]
        assert origin.part_ppb == WHOLE
        return {source_of(origin): Fraction(1)}

    def of_making(self, making_id):
        return added(scaled(self.content(taking.bundle_id), taking.share_ppb) for taking in self.went_in[making_id])

    def content(self, pk):
        if pk not in self.known:
            bundle = self.bundles[pk]
            if bundle.making_id:
                self.known[pk] = scaled(self.of_making(bundle.making_id), bundle.part_of_making_ppb)
            elif bundle.dried_from_id:
                taken, part_ppb = self.came_back[pk]
                self.known[pk] = scaled(scaled(self.content(bundle.dried_from_id), taken.share_ppb), part_ppb)
            else:
                self.known[pk] = self.tied(bundle)
        return self.known[pk]

    def nothing_is_lost(self):
        """What is left, what ended and what was lost add up, source by source, to all that was ever tied."""
        roots = added(self.tied(each) for each in self.bundles.values() if not (each.making_id or each.dried_from_id))
        ends = []
        for pk, bundle in self.bundles.items():
            ended = sum(taking.share_ppb for taking in self.takings[pk] if not taking.making_id)
            ends.append(scaled(self.content(pk), bundle.left_ppb + self.right[pk] + ended))
        for making in Making.objects.of(self.holding):
            ends.append(scaled(self.of_making(making.pk), making.rejects_ppb + making.bark_ppb))
        # What was dried again, or brought back, had ended once, and began anew.
        ends += [scaled(self.content(pk), -WHOLE) for pk in self.came_back]
        assert added(ends) == roots

    def no_ancestry_is_lost(self):
        """Walking up from every bundle leads to exactly the cuts, purchases and finds that its origins name."""
        for pk in self.bundles:
            named = {source_of(origin) for origin in self.origins[pk]}
            assert named
            # A source of less than one part in a thousand million may be left out.
            walked = self.content(pk)
            all_of_it = sum(walked.values())
            assert named <= set(walked)
            assert all(walked[left_out] < all_of_it / 10_000_000 for left_out in set(walked) - named)

    def all_that_was_tied_went_somewhere(self):
        """What trace tells of each bundle makes the whole of it, and leaves of each source what is there."""
        ends, _ways = fates_of(self.holding)
        assert all(sum(found.values()) == 1 for found in ends.values())
        roots = [pk for pk, each in self.bundles.items() if each.made in ("graded", "bought", "found")]
        told = added({source: ends[pk].get("shed", 0) for source in self.tied(self.bundles[pk])} for pk in roots)
        assert told == added(scaled(self.content(pk), each.left_ppb) for pk, each in self.bundles.items())


def source_of(origin):
    relation, thing = origin.source
    assert thing.struck_out_at is None
    return relation, thing.pk


def scaled(content, ppb):
    return {source: amount * ppb / WHOLE for source, amount in content.items()}


def added(contents):
    total = defaultdict(Fraction)
    for content in contents:
        for source, amount in content.items():
            total[source] += amount
    return {source: amount for source, amount in total.items() if amount}


def struck_out_rows_count_nowhere(holding):
    living = list(Bundle.objects.of(holding).order_by("pk"))
    ancestries = bundles.ancestry_of(living)
    for bundle in living:
        ancestry = ancestries[bundle.pk]
        assert sum(origin.part_ppb for origin in ancestry.sources) == WHOLE
        assert ancestry.mixed == (len({bundles.variety_of(origin) for origin in ancestry.sources}) > 1)
        assert bundles.left_when_weighed(bundle, DOOMSDAY) == bundle.left_ppb
        assert not any(each.struck_out_at for each in bundles.takings_of(bundle))
        promised = sum(each.share_ppb for each in stock.standing_promises(bundle))
        assert stock.promised_ppb(bundle) == promised
        assert stock.free_ppb(bundle) == max(0, bundle.left_ppb - promised)
    for cut in Cut.objects.of(holding):
        gradings = Grading.objects.of(holding).filter(cut=cut)
        assert bundles.balance_of(cut).bundles == sum(each.grading in gradings for each in living)
    for batch in Batch.objects.of(holding):
        assert batch.taking.struck_out_at is None

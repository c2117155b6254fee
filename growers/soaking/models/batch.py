from datetime import time, timedelta

from django.db import models
from django.db.models import F, Q
from django.utils.timezone import get_current_timezone, localtime
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Taking
from growers.bundles.rules import WHOLE
from growers.furniture.dates import write_day
from growers.furniture.moments import Moment, write_moment
from growers.furniture.writing import write
from growers.people.models import EntryQuerySet, Record

from .tank import Tank

WRITTEN_LATE = (timedelta(hours=1), timedelta(days=3))
"""Between these a check was written down the same evening, or the day after; what is longer ago was told."""


def moment(at, until=None):
    """As on the pages; a whole day just as its day."""
    first, last = localtime(at), localtime(until or at)
    if first.time() == last.time() == time.min and last.date() - first.date() == timedelta(days=1):
        return write_day(first.date())
    return write_moment(Moment(first, last, ""), get_current_timezone())


class BatchQuerySet(EntryQuerySet):
    def in_water(self):
        return self.filter(in_water_ppb__gt=0)

    def with_some_left(self):
        """Out of the water and not yet woven, dried again or thrown away."""
        return self.filter(left_ppb__gt=F("in_water_ppb"))


class Batch(Record):
    """Rods of one bundle in one tank. When they went in is a range: both ends alike when known exactly.

    `in_water_ppb` is the part still under water; `left_ppb` the part not yet used,
    in or out of the water. Both are parts of the batch.
    """

    brings = ("taking",)
    counters = ("in_water_ppb", "left_ppb")

    taking = models.ForeignKey(Taking, on_delete=models.PROTECT, related_name="+", verbose_name=_("rods taken out"))
    tank = models.ForeignKey(Tank, on_delete=models.PROTECT, related_name="batches", verbose_name=_("tank"))
    in_at = models.DateTimeField(_("went in, at the earliest"))
    in_until_at = models.DateTimeField(_("went in, at the latest"))
    all_under = models.BooleanField(_("all under water"), default=True)
    soaked_before = models.BooleanField(_("soaked before"), default=False)
    in_water_ppb = models.PositiveBigIntegerField(default=WHOLE)
    left_ppb = models.PositiveBigIntegerField(default=WHOLE)
    note = models.TextField(_("note"), blank=True)

    objects = BatchQuerySet.as_manager()

    class Meta(Record.Meta):
        verbose_name = _("batch")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["taking"], condition=Q(struck_out_at=None), name="one_living_batch_a_taking"
            ),
            models.CheckConstraint(name="batch_in_range_runs_forward", condition=Q(in_until_at__gte=F("in_at"))),
            models.CheckConstraint(
                name="batch_parts_in_bounds",
                condition=Q(
                    in_water_ppb__range=(0, WHOLE), left_ppb__range=(0, WHOLE), left_ppb__gte=F("in_water_ppb")
                ),
                violation_error_message=_("No more can be lifted or used than went into the water."),
            ),
        ]

    def __str__(self):
        return _("batch put in %(tank)s %(at)s") % {"tank": self.tank, "at": moment(self.in_at, self.in_until_at)}

    @property
    def went_in(self):
        return Moment(self.in_at, self.in_until_at, "")

    @property
    def out_ppb(self):
        """The part out of the water and unused."""
        return self.left_ppb - self.in_water_ppb


class BendCheck(Record):
    """The thick end of a rod bent through 90 degrees."""

    goes_with = ("batch",)

    class Result(models.TextChoices):
        CRACKS = "cracks", _("cracks")
        NEARLY = "nearly", _("nearly")
        FOLDS = "folds", _("folds")
        TOO_WET = "too_wet", _("breaks, but wet right through")
        SLIMY = "slimy", _("slimy")
        SLIPS = "slips", _("bark slips")

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="checks", verbose_name=_("batch"))
    at = models.DateTimeField(_("when"))
    result = models.CharField(_("result"), max_length=7, choices=Result)
    rods_tried = models.PositiveIntegerField(_("rods tried"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("bend check")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["batch", "at", "result"],
                condition=Q(struck_out_at=None),
                name="one_living_check_a_moment",
                violation_error_message=_("That check is in the book already."),
            ),
        ]

    @property
    def written_late(self):
        """Shown beside the check; nothing is reckoned from when it was typed."""
        return WRITTEN_LATE[0] < self.created_at - self.at < WRITTEN_LATE[1]

    def __str__(self):
        return _("bend check %(at)s: %(result)s") % {"at": moment(self.at), "result": self.get_result_display()}


class Lift(Record):
    """All or part of a batch taken out of the water."""

    goes_with = ("batch",)

    class State(models.TextChoices):
        READY = "ready", _("ready")
        NEARLY = "nearly", _("nearly ready")
        UNREADY = "unready", _("not ready")
        FORGOTTEN = "forgotten", _("forgotten, left too long")
        UNSAID = "", _("not said")

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="lifts", verbose_name=_("batch"))
    at = models.DateTimeField(_("lifted, at the earliest"))
    until_at = models.DateTimeField(_("lifted, at the latest"))
    part_ppb = models.PositiveBigIntegerField(_("part"))
    which = models.CharField(_("which of them"), max_length=60, blank=True)
    state = models.CharField(_("state"), max_length=9, choices=State, blank=True, default=State.UNSAID)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("lift")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="lift_of_some",
                condition=Q(part_ppb__range=(1, WHOLE), until_at__gte=F("at")),
                violation_error_message=_("Something is lifted: more than nothing, no more than there is."),
            ),
        ]

    def __str__(self):
        words = {"part": write("part", self.part_ppb / WHOLE), "at": moment(self.at, self.until_at)}
        return (_("lifted %(at)s") if self.part_ppb == WHOLE else _("%(part)s lifted, %(at)s")) % words

    @property
    def moment(self):
        return Moment(self.at, self.until_at, "")

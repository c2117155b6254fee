from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle
from growers.bundles.rules import WHOLE
from growers.people.models import Record

from .batch import Batch, Lift, moment


class Mellow(Record):
    """Lifted rods stood wrapped and damp so that moisture evens out."""

    goes_with = ("lift",)

    class Wrap(models.TextChoices):
        UNSAID = "", _("not said")
        SHEET = "sheet", _("damp sheet")
        HESSIAN = "hessian", _("hessian")
        BLANKET = "blanket", _("blanket")
        BAG = "bag", _("plastic bag")
        OTHER = "other", _("something else")

    lift = models.ForeignKey(Lift, on_delete=models.PROTECT, related_name="mellows", verbose_name=_("lift"))
    began_at = models.DateTimeField(_("from"))
    ended_at = models.DateTimeField(_("until"), null=True, blank=True)
    wrap = models.CharField(_("wrap"), max_length=7, choices=Wrap, blank=True, default=Wrap.UNSAID)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("mellowing")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["lift"],
                condition=Q(struck_out_at=None),
                name="one_living_mellow_a_lift",
                violation_error_message=_("These rods are in the book as wrapped already: correct that."),
            ),
            models.CheckConstraint(
                name="mellow_runs_forward",
                condition=Q(ended_at=None) | Q(ended_at__gte=F("began_at")),
                violation_error_message=_("Rods can't be unwrapped before they were wrapped."),
            ),
        ]

    def __str__(self):
        return _("wrapped %(at)s") % {"at": moment(self.began_at)}


class BenchResult(Record):
    """How the rods of one lift were to work."""

    goes_with = ("lift",)

    class Result(models.TextChoices):
        RIGHT = "right", _("right")
        CRACKED = "cracked", _("cracked")
        TOO_SOFT = "too_soft", _("too soft")
        SPLIT = "split", _("split in working")
        TOO_WET = "too_wet", _("breaks, but wet right through")

    lift = models.ForeignKey(Lift, on_delete=models.PROTECT, related_name="bench_results", verbose_name=_("lift"))
    at = models.DateTimeField(_("when"))
    result = models.CharField(_("result"), max_length=8, choices=Result)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("bench result")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["lift", "at", "result"],
                condition=Q(struck_out_at=None),
                name="one_living_bench_result_a_moment",
                violation_error_message=_("That is in the book already."),
            ),
        ]

    def __str__(self):
        return _("at the bench %(at)s: %(result)s") % {"at": moment(self.at), "result": self.get_result_display()}


class DriedAgain(Record):
    """Soaked rods that were dried right out again and tied: own work only, used first."""

    brings = ("bundle",)

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="dried_agains", verbose_name=_("batch"))
    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+", verbose_name=_("bundle"))
    on = models.DateField(_("day"))
    part_ppb = models.PositiveBigIntegerField(_("part"))

    class Meta(Record.Meta):
        verbose_name = _("dried again")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(name="dried_again_of_some", condition=Q(part_ppb__range=(1, WHOLE))),
        ]

    def __str__(self):
        return _("dried again as %(bundle)s") % {"bundle": self.bundle}


class Spoiled(Record):
    """Soaked rods that are waste: slimy, black-spotted, brittle."""

    batch = models.ForeignKey(Batch, on_delete=models.PROTECT, related_name="spoileds", verbose_name=_("batch"))
    on = models.DateField(_("day"))
    part_ppb = models.PositiveBigIntegerField(_("part"))
    cause = models.CharField(_("cause"), max_length=120)

    class Meta(Record.Meta):
        verbose_name = _("spoiled rods")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(name="spoiled_of_some", condition=Q(part_ppb__range=(1, WHOLE))),
        ]

    def __str__(self):
        return _("spoiled: %(cause)s") % {"cause": self.cause}

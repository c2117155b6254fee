from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.people.models import Record

from ..rules import WHOLE
from .making import Making


class Taking(Record):
    """Rods taken out of a bundle for a purpose, as a share of its dry matter fixed when written.

    Beside the share stands what was said, and the weight or count that it was reckoned from.
    """

    goes_with = ("making",)
    part_of = ("making",)

    class Purpose(models.TextChoices):
        SOAK = "soak", _("to soak")
        SALE = "sale", _("sold")
        MAKING = "making", _("made into other bundles")
        WORK = "work", _("worked without soaking")
        GONE = "gone", _("gone")

    class Gone(models.TextChoices):
        BURNT = "burnt", _("burnt")
        COMPOSTED = "composted", _("composted")
        BEETLE = "beetle", _("beetle")
        MOUSE = "mouse", _("mouse")
        MOULD = "mould", _("mould")
        LOST = "lost", _("lost")
        GIVEN = "given", _("given")

    class SaidHow(models.TextChoices):
        MASS = "mass", _("by weight")
        RODS = "rods", _("by rods")
        PART = "part", _("a part")
        REST = "rest", _("all the rest")

    class Known(models.TextChoices):
        TOGETHER = "together", _("what was left was weighed too")
        COUNT = "count", _("counted or weighed since")
        WEIGHED = "weighed", _("as last weighed")
        TIED = "tied", _("as weighed when tied")
        TYPICAL = "typical", _("typical weight of such bundles")
        SAID = "said", _("as said")

    bundle = models.ForeignKey(
        "bundles.Bundle", on_delete=models.PROTECT, related_name="takings", verbose_name=_("bundle")
    )
    on = models.DateField(_("day"))
    at = models.DateTimeField(_("when"), null=True, blank=True)
    purpose = models.CharField(_("what for"), max_length=6, choices=Purpose)
    gone = models.CharField(_("where it went"), max_length=9, choices=Gone, blank=True)
    making = models.ForeignKey(
        Making, on_delete=models.PROTECT, related_name="takings", null=True, blank=True, verbose_name=_("making")
    )
    part_of_making_ppb = models.PositiveBigIntegerField(_("part of the making"), null=True, blank=True)
    share_ppb = models.PositiveBigIntegerField(_("part of the bundle"))
    said_how = models.CharField(max_length=4, choices=SaidHow)
    said_value = models.FloatField(null=True, blank=True)
    said_unit = models.CharField(max_length=8, blank=True)
    said_text = models.CharField(_("how much"), max_length=40, blank=True)
    reckoned_from_kg = models.FloatField(_("weight it was reckoned from"), null=True, blank=True)
    reckoned_from_rods = models.PositiveIntegerField(_("rods it was reckoned from"), null=True, blank=True)
    known = models.CharField(_("how it is known"), max_length=8, choices=Known, default=Known.SAID)
    mass_kg = models.FloatField(_("weight"), null=True, blank=True)
    rods = models.PositiveIntegerField(_("rods"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("rods taken out")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="taking_share_in_bounds",
                condition=Q(share_ppb__range=(1, WHOLE)),
                violation_error_message=_("What is taken out is more than nothing and no more than the bundle."),
            ),
            models.CheckConstraint(
                name="taking_gone_says_how",
                condition=(Q(purpose="gone") & ~Q(gone="")) | (~Q(purpose="gone") & Q(gone="")),
                violation_error_message=_("Say what became of rods that are gone, and only of those."),
            ),
            models.CheckConstraint(
                name="taking_for_a_making_names_it",
                condition=Q(purpose="making", making__isnull=False)
                & Q(part_of_making_ppb__isnull=False, part_of_making_ppb__range=(1, WHOLE))
                | (~Q(purpose="making") & Q(making=None, part_of_making_ppb=None)),
            ),
        ]

    def __str__(self):
        much = self.said_text or self.get_said_how_display()
        return _("%(much)s taken out, %(day)s") % {"much": much, "day": write_day(self.on)}


class Adjustment(Record):
    """The ledger set right after a count: the share by which the book had said too much (or too little)."""

    bundle = models.ForeignKey(
        "bundles.Bundle", on_delete=models.PROTECT, related_name="adjustments", verbose_name=_("bundle")
    )
    on = models.DateField(_("day"))
    share_ppb = models.BigIntegerField(_("part the book was set right by"))

    class Meta(Record.Meta):
        verbose_name = _("adjustment")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="adjustment_in_bounds", condition=Q(share_ppb__range=(-WHOLE, WHOLE)) & ~Q(share_ppb=0)
            ),
        ]

    def __str__(self):
        return _("set right after a count, %(day)s") % {"day": write_day(self.on)}

"""What comes back after a sale: rods, and words."""

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle, Taking
from growers.bundles.rules import WHOLE
from growers.furniture.dates import write_day
from growers.people.models import Record

from .customer import Customer
from .sale import SaleLine


class Complaint(Record):
    """What a customer found wrong with rods, as told; answered when there is an answer."""

    class What(models.TextChoices):
        SHORT_WEIGHT = "short_weight", _("short weight")
        BRITTLE = "brittle", _("brittle, would not bend")
        MOULD = "mould", _("mould")
        BLACK_MARKS = "black_marks", _("black marks")
        SIDE_SHOOTS = "side_shoots", _("side shoots")
        MIXED_VARIETY = "mixed_variety", _("mixed variety")
        TOO_SHORT = "too_short", _("too short")
        DID_NOT_ROOT = "did_not_root", _("did not root")
        OTHER = "other", _("something else")

    line = models.ForeignKey(
        SaleLine,
        on_delete=models.PROTECT,
        related_name="complaints",
        null=True,
        blank=True,
        verbose_name=_("line of the sale"),
    )
    bundle = models.ForeignKey(
        Bundle, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("bundle")
    )
    customer = models.ForeignKey(
        Customer, on_delete=models.PROTECT, related_name="complaints", null=True, blank=True, verbose_name=_("customer")
    )
    on = models.DateField(_("day"))
    what = models.CharField(_("what was wrong"), max_length=13, choices=What)
    water_c = models.FloatField(null=True, blank=True)
    water_low_c = models.FloatField(null=True, blank=True)
    water_high_c = models.FloatField(null=True, blank=True)
    water_unit = models.CharField(max_length=8, blank=True)
    water_text = models.CharField(_("water"), max_length=40, blank=True)
    soaked_hours = models.FloatField(null=True, blank=True)
    soaked_text = models.CharField(_("time in the water"), max_length=40, blank=True)
    note = models.TextField(_("note"), blank=True)
    answered_on = models.DateField(_("answered on"), null=True, blank=True)
    answer = models.TextField(_("answer"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("complaint")
        constraints = [
            *Record.Meta.constraints,
            # The customer of a sale is read off the sale; only of a bundle alone is it told here.
            models.CheckConstraint(
                name="complaint_of_one_thing",
                condition=Q(line__isnull=False, bundle=None, customer=None) | Q(line=None, bundle__isnull=False),
            ),
            models.CheckConstraint(
                name="complaint_water_whole",
                condition=Q(water_c=None, water_low_c=None, water_high_c=None, water_unit="", water_text="")
                | Q(
                    water_c__isnull=False,
                    water_low_c__isnull=False,
                    water_high_c__isnull=False,
                    water_low_c__lte=F("water_c"),
                    water_high_c__gte=F("water_c"),
                )
                & ~Q(water_text=""),
                violation_error_message=_("Say how warm the water was told to be, or leave it empty."),
            ),
            models.CheckConstraint(
                name="complaint_soaked_whole",
                condition=Q(soaked_hours=None, soaked_text="")
                | Q(soaked_hours__isnull=False, soaked_hours__gt=0) & ~Q(soaked_text=""),
                violation_error_message=_("Say how long they were soaked, or leave it empty."),
            ),
            models.CheckConstraint(
                name="complaint_answered_whole",
                condition=Q(answered_on=None, answer="")
                | Q(answered_on__isnull=False, answered_on__gte=F("on")) & ~Q(answer=""),
                violation_error_message=_("An answer has its words and its day, and comes after the complaint."),
            ),
        ]

    def __str__(self):
        words = {"whom": self.whom or _("somebody"), "what": self.get_what_display(), "day": write_day(self.on)}
        return _("%(whom)s, %(day)s: %(what)s") % words

    @property
    def whom(self):
        return self.line.sale.customer if self.line else self.customer

    @property
    def about(self):
        """The bundle that the rods were out of."""
        return self.line.taking.bundle if self.line else self.bundle


class Returned(Record):
    """Sold rods that came back: they stand in the book again as a bundle of their own."""

    brings = ("bundle",)

    line = models.ForeignKey(
        SaleLine, on_delete=models.PROTECT, related_name="returns", verbose_name=_("line of the sale")
    )
    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+", verbose_name=_("bundle"))
    on = models.DateField(_("day"))
    part_ppb = models.PositiveBigIntegerField(_("part"))
    said_how = models.CharField(max_length=4, choices=Taking.SaidHow)
    said_text = models.CharField(_("how much"), max_length=40, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("rods brought back")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="returned_of_some",
                condition=Q(part_ppb__range=(1, WHOLE)),
                violation_error_message=_("What comes back is more than nothing and no more than was sold."),
            ),
        ]

    def __str__(self):
        return _("brought back %(day)s as %(bundle)s") % {"day": write_day(self.on), "bundle": self.bundle}

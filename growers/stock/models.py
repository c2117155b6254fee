from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Adjustment, Bundle, ScaleCorrection, Taking
from growers.bundles.rules import WHOLE
from growers.furniture.dates import write_day
from growers.furniture.writing import typed
from growers.people.models import EntryQuerySet, Record, weight_whole


class Count(Record):
    """What is left of a bundle, weighed or counted, and why it differs from what the book said."""

    brings = ("adjustment",)

    class Why(models.TextChoices):
        AGREES = "agrees", _("it agrees")
        DRIED = "dried", _("air-dried further, or took up damp")
        MISCOUNTED = "miscounted", _("miscounted before")
        UNWRITTEN = "unwritten", _("taken and not written")
        UNKNOWN = "unknown", _("don't know")

    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+", verbose_name=_("bundle"))
    on = models.DateField(_("day"))
    at = models.DateTimeField(_("when"), null=True, blank=True)
    mass_kg = models.FloatField(null=True, blank=True)
    mass_unit = models.CharField(max_length=8, blank=True)
    mass_text = models.CharField(_("weight"), max_length=40, blank=True)
    scale = models.ForeignKey(
        ScaleCorrection,
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("scale as set right"),
    )
    rods = models.PositiveIntegerField(_("rods"), null=True, blank=True)
    book_said_kg = models.FloatField(_("weight by the book"), null=True, blank=True)
    book_said_rods = models.PositiveIntegerField(_("rods by the book"), null=True, blank=True)
    why = models.CharField(_("why"), max_length=10, choices=Why)
    left_ppb = models.PositiveBigIntegerField()
    adjustment = models.ForeignKey(
        Adjustment,
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("how the book was set right"),
    )
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("count")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="count_says_how_much",
                condition=Q(mass_kg__isnull=False, rods=None) | Q(mass_kg=None, rods__isnull=False),
                violation_error_message=_("Give what is left as a weight or as a number of rods."),
            ),
            weight_whole("count_mass_whole"),
            models.CheckConstraint(name="count_left_in_bounds", condition=Q(left_ppb__range=(0, WHOLE))),
        ]

    def __str__(self):
        much = typed(self.mass_text, self.mass_unit) or _("%(rods)d rods") % {"rods": self.rods}
        return _("%(much)s left, counted %(day)s") % {"much": much, "day": write_day(self.on)}


class PromiseQuerySet(EntryQuerySet):
    def standing(self):
        """Neither kept nor released."""
        return self.filter(released_on=None, kept_by=None)


class Promise(Record):
    """Rods set aside for somebody: not sold, but not to be promised twice."""

    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+", verbose_name=_("bundle"))
    whom = models.CharField(_("whom"), max_length=120)
    on = models.DateField(_("day"))
    share_ppb = models.PositiveBigIntegerField(_("part of the bundle"))
    said_how = models.CharField(max_length=4, choices=Taking.SaidHow)
    said_value = models.FloatField(null=True, blank=True)
    said_unit = models.CharField(max_length=8, blank=True)
    said_text = models.CharField(_("how much"), max_length=40, blank=True)
    released_on = models.DateField(_("released on"), null=True, blank=True)
    kept_by = models.ForeignKey(
        Taking, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("kept by")
    )
    note = models.TextField(_("note"), blank=True)

    objects = PromiseQuerySet.as_manager()

    class Meta(Record.Meta):
        verbose_name = _("promise")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="promise_share_in_bounds",
                condition=Q(share_ppb__range=(1, WHOLE)),
                violation_error_message=_("What is promised is more than nothing and no more than the bundle."),
            ),
            models.CheckConstraint(name="promise_ends_one_way", condition=Q(released_on=None) | Q(kept_by=None)),
        ]

    def __str__(self):
        much = self.said_text or self.get_said_how_display()
        return _("%(much)s promised to %(whom)s") % {"much": much, "whom": self.whom}

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.people.models import Record


class Place(Record):
    """Where bundles stand: a shed, a loft, a rack, out under cover."""

    class Cover(models.TextChoices):
        SHED = "shed", _("shed or barn")
        LOFT = "loft", _("loft")
        INDOORS = "indoors", _("heated room")
        OUTSIDE = "outside", _("outside")

    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    cover = models.CharField(_("cover"), max_length=8, choices=Cover, default=Cover.SHED)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("place")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_place_a_name",
                violation_error_message=_("This book has a place of that name already."),
            ),
        ]

    def __str__(self):
        return self.name


class Stack(Record):
    """Sister bundles dried together in one place."""

    counters = ("evidence_no",)

    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    stacked_on = models.DateField(_("stacked on"))
    evidence_no = models.PositiveBigIntegerField(default=0)

    class Meta(Record.Meta):
        verbose_name = _("stack")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_stack_a_name",
                violation_error_message=_("This book has a stack of that name already."),
            ),
        ]

    def __str__(self):
        return self.name


class Move(Record):
    """From this day the bundle stands here."""

    bundle = models.ForeignKey(
        "bundles.Bundle", on_delete=models.PROTECT, related_name="moves", verbose_name=_("bundle")
    )
    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="moves", verbose_name=_("place"))
    on = models.DateField(_("day"))
    at = models.DateTimeField(_("when"), null=True, blank=True)

    goes_with = ("bundle",)

    class Meta(Record.Meta):
        verbose_name = _("move")

    def __str__(self):
        return _("moved to %(place)s on %(day)s") % {"place": self.place, "day": write_day(self.on)}

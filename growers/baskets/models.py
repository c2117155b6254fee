from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle, Taking
from growers.bundles.rules import WHOLE
from growers.furniture.dates import write_day
from growers.harvest.models import LengthClass
from growers.people.models import Record
from growers.soaking.models import Batch


class Pattern(Record):
    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("pattern")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_pattern_a_name",
                violation_error_message=_("This book has a pattern of that name already."),
            ),
        ]

    def __str__(self):
        return self.name


class PatternPart(Record):
    """A part of a pattern, such as its stakes, and the rods that it takes for one basket."""

    goes_with = ("pattern",)

    pattern = models.ForeignKey(Pattern, on_delete=models.PROTECT, related_name="parts", verbose_name=_("pattern"))
    name = models.CharField(_("name"), max_length=60)
    name_key = models.CharField(max_length=120, editable=False)
    rods = models.PositiveIntegerField(_("rods"), null=True, blank=True)
    length_class = models.ForeignKey(
        LengthClass, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("length")
    )
    thickness = models.CharField(_("thickness"), max_length=6, choices=Bundle.Thickness, blank=True)

    class Meta(Record.Meta):
        verbose_name = _("part of a pattern")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["pattern", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_part_a_name",
                violation_error_message=_("This pattern has a part of that name already."),
            ),
            models.CheckConstraint(
                name="pattern_part_of_some_rods",
                condition=Q(rods=None) | Q(rods__gt=0),
                violation_error_message=_("A part takes some rods, or how many is not said."),
            ),
        ]

    def __str__(self):
        return self.name


class Basket(Record):
    name = models.CharField(_("name"), max_length=120)
    pattern = models.ForeignKey(
        Pattern, on_delete=models.PROTECT, related_name="baskets", null=True, blank=True, verbose_name=_("pattern")
    )
    made_on = models.DateField(_("made on"))
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("basket")

    def __str__(self):
        return f"{self.name}, {write_day(self.made_on)}"

    @property
    def last_look(self):
        """In words, where the query brought the last result along."""
        result = getattr(self, "last_result", None)
        return StayedTight.Result(result).label if result else ""


class RodsUsed(Record):
    """What went into a basket: part of a soaked batch, or rods worked without soaking."""

    goes_with = ("basket",)
    brings = ("taking",)

    basket = models.ForeignKey(Basket, on_delete=models.PROTECT, related_name="rods_used", verbose_name=_("basket"))
    batch = models.ForeignKey(
        Batch, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("batch")
    )
    taking = models.ForeignKey(
        Taking, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("rods taken out")
    )
    part_of_batch_ppb = models.PositiveBigIntegerField(_("part of the batch"), null=True, blank=True)
    said_how = models.CharField(max_length=4, choices=Taking.SaidHow)
    said_text = models.CharField(_("how much"), max_length=40, blank=True)
    part_of_basket = models.CharField(_("part of the basket"), max_length=60, blank=True)

    class Meta(Record.Meta):
        verbose_name = _("rods used")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="rods_used_of_one_thing",
                condition=Q(batch__isnull=False, taking=None)
                & Q(part_of_batch_ppb__isnull=False, part_of_batch_ppb__range=(1, WHOLE))
                | Q(batch=None, taking__isnull=False, part_of_batch_ppb=None),
            ),
        ]

    def __str__(self):
        return _("rods in %(basket)s") % {"basket": self.basket}


class StayedTight(Record):
    """A basket looked at again months later."""

    class Result(models.TextChoices):
        TIGHT = "tight", _("tight")
        BIT_LOOSE = "bit_loose", _("a bit loose")
        LOOSE = "loose", _("loose")

    basket = models.ForeignKey(Basket, on_delete=models.PROTECT, related_name="stayed_tights", verbose_name=_("basket"))
    on = models.DateField(_("day"))
    result = models.CharField(_("result"), max_length=9, choices=Result)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("stayed tight")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["basket", "on"],
                condition=Q(struck_out_at=None),
                name="one_living_look_a_day",
                violation_error_message=_("That basket was looked at that day already: correct it there."),
            ),
        ]

    def __str__(self):
        return f"{self.get_result_display()}, {write_day(self.on)}"

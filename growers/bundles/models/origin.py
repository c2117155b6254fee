from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.furniture.dates import write_day
from growers.harvest.models import Cut
from growers.people.models import Record


class Purchase(Record):
    """Rods bought in from another grower: no bed of ours, and the winter as told."""

    supplier = models.CharField(_("supplier"), max_length=120)
    on = models.DateField(_("day"))
    variety = models.ForeignKey(
        Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("variety")
    )
    told_winter = models.CharField(_("winter as told"), max_length=20, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("purchase")

    def __str__(self):
        return _("bought in from %(supplier)s, %(day)s") % {"supplier": self.supplier, "day": write_day(self.on)}


class Find(Record):
    """A bundle that turned up without a tag: unknown, perhaps with a likely variety, until settled."""

    on = models.DateField(_("day"))
    likely_variety = models.ForeignKey(
        Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("likely variety")
    )
    variety = models.ForeignKey(
        Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("variety")
    )
    told_winter = models.CharField(_("winter as told"), max_length=20, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("find")

    def __str__(self):
        return _("found without a tag, %(day)s") % {"day": write_day(self.on)}


class Origin(Record):
    """What part of a bundle came from which cut, purchase or find. Written once, when it is made."""

    goes_with = ("bundle",)
    part_of = ("bundle",)
    by_itself = False

    bundle = models.ForeignKey(
        "bundles.Bundle", on_delete=models.PROTECT, related_name="origins", verbose_name=_("bundle")
    )
    cut = models.ForeignKey(
        Cut, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("cut")
    )
    purchase = models.ForeignKey(
        Purchase, on_delete=models.PROTECT, related_name="origins", null=True, blank=True, verbose_name=_("purchase")
    )
    find = models.ForeignKey(
        Find, on_delete=models.PROTECT, related_name="origins", null=True, blank=True, verbose_name=_("find")
    )
    part_ppb = models.PositiveBigIntegerField(_("part"))

    class Meta(Record.Meta):
        verbose_name = _("origin")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="origin_is_one_thing",
                condition=Q(cut__isnull=False, purchase=None, find=None)
                | Q(cut=None, purchase__isnull=False, find=None)
                | Q(cut=None, purchase=None, find__isnull=False),
            ),
            models.CheckConstraint(name="origin_part_in_bounds", condition=Q(part_ppb__range=(1, 1_000_000_000))),
            models.UniqueConstraint(
                fields=["bundle", "cut"], condition=Q(struck_out_at=None), name="one_living_origin_a_cut"
            ),
            models.UniqueConstraint(
                fields=["bundle", "purchase"], condition=Q(struck_out_at=None), name="one_living_origin_a_purchase"
            ),
            models.UniqueConstraint(
                fields=["bundle", "find"], condition=Q(struck_out_at=None), name="one_living_origin_a_find"
            ),
        ]

    def __str__(self):
        return str(self.source[1])

    @property
    def source(self):
        """The relation's name and what it points to."""
        for relation in ("cut", "purchase", "find"):
            if getattr(self, f"{relation}_id"):
                return relation, getattr(self, relation)
        return None

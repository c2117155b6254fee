from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from growers.beds.models import Planting
from growers.furniture.dates import write_day
from growers.furniture.writing import typed
from growers.people.models import Record, weight_whole


class LengthClass(Record):
    """A range of lengths with the holding's own label. Label and range are never confused."""

    label = models.CharField(_("label"), max_length=40)
    name_key = models.CharField(max_length=80, editable=False)
    min_m = models.FloatField(_("from"))
    max_m = models.FloatField(_("up to"), null=True, blank=True)

    class Meta(Record.Meta):
        verbose_name = _("length")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_length_a_label",
                violation_error_message=_("This book has a length of that label already."),
            ),
            models.CheckConstraint(
                name="length_class_from_to",
                condition=Q(min_m__gte=0) & (Q(max_m=None) | Q(max_m__gt=F("min_m"))),
                violation_error_message=_("A length runs from the shorter to the longer."),
            ),
        ]

    def __str__(self):
        return self.label

    @property
    def middle_m(self):
        """The length such a rod is drawn at."""
        return self.min_m if self.max_m is None else (self.min_m + self.max_m) / 2


class Cut(Record):
    """One cutting of one planting, on one day or several. Its winter is that of its first day."""

    planting = models.ForeignKey(Planting, on_delete=models.PROTECT, related_name="+", verbose_name=_("planting"))
    first_on = models.DateField(_("first day"))
    age_years = models.PositiveSmallIntegerField(_("years of growth"), default=1)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("cut")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="cut_age_is_likely",
                condition=Q(age_years__range=(1, 10)),
                violation_error_message=_("The rods' growth is 1 to 10 years old."),
            ),
        ]

    def __str__(self):
        return _("cut of %(planting)s from %(day)s") % {"planting": self.planting, "day": write_day(self.first_on)}


class CuttingDay(Record):
    """What came off on one day, or in one go of it: several may stand for one day and add up."""

    goes_with = ("cut",)

    class Fault(models.TextChoices):
        NONE = "", _("none")
        SIDE_SHOOTS = "side_shoots", _("side shoots")
        RUST = "rust", _("rust")
        GNAWED = "gnawed", _("gnawed")
        CROOKED = "crooked", _("crooked butts")
        BROKEN = "broken", _("broken tips")
        OTHER = "other", _("something else")

    cut = models.ForeignKey(Cut, on_delete=models.PROTECT, related_name="days", verbose_name=_("cut"))
    on = models.DateField(_("day"))
    bundles = models.PositiveIntegerField(_("bundles"), null=True, blank=True)
    armfuls = models.PositiveIntegerField(_("armfuls"), null=True, blank=True)
    mass_kg = models.FloatField(null=True, blank=True)
    mass_unit = models.CharField(max_length=8, blank=True)
    mass_text = models.CharField(_("weight"), max_length=40, blank=True)
    fault = models.CharField(_("fault"), max_length=12, choices=Fault, blank=True, default=Fault.NONE)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("cutting day")
        constraints = [
            *Record.Meta.constraints,
            weight_whole("cutting_day_mass_whole"),
        ]

    def __str__(self):
        return _("cut on %(day)s: %(much)s") % {"day": write_day(self.on), "much": self.much or _("how much not said")}

    @property
    def much(self):
        """What came off, in the words it was said with."""
        said = []
        if self.bundles:
            said.append(ngettext("%(n)d bundle", "%(n)d bundles", self.bundles) % {"n": self.bundles})
        if self.armfuls:
            said.append(ngettext("%(n)d armful", "%(n)d armfuls", self.armfuls) % {"n": self.armfuls})
        if self.mass_text:
            said.append(typed(self.mass_text, self.mass_unit))
        return ", ".join(said)


class GreenOut(Record):
    """Green rods and sets that left the cut unbundled: they never enter the dry ledger."""

    class What(models.TextChoices):
        RODS = "rods", _("green rods")
        SETS = "sets", _("sets")

    class Where(models.TextChoices):
        SOLD = "sold", _("sold")
        GIVEN = "given", _("given")
        PLANTED = "planted", _("planted here")
        USED = "used", _("used green")

    cut = models.ForeignKey(Cut, on_delete=models.PROTECT, related_name="green_outs", verbose_name=_("cut"))
    on = models.DateField(_("day"))
    what = models.CharField(_("what"), max_length=4, choices=What)
    where = models.CharField(_("where to"), max_length=8, choices=Where)
    whom = models.CharField(_("whom"), max_length=120, blank=True)
    pieces = models.PositiveIntegerField(_("pieces"), null=True, blank=True)
    mass_kg = models.FloatField(null=True, blank=True)
    mass_unit = models.CharField(max_length=8, blank=True)
    mass_text = models.CharField(_("weight"), max_length=40, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("green rods or sets")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="green_out_says_how_much",
                condition=(Q(pieces__gt=0) | Q(pieces=None)) & (Q(pieces__isnull=False) | Q(mass_kg__isnull=False)),
                violation_error_message=_("Say how much went: a number of pieces or a weight."),
            ),
            weight_whole("green_out_mass_whole"),
        ]

    def __str__(self):
        pieces = self.pieces and ngettext("%(n)d piece", "%(n)d pieces", self.pieces) % {"n": self.pieces}
        much = pieces or typed(self.mass_text, self.mass_unit)
        return f"{self.get_what_display()}, {much}, {write_day(self.on)}"

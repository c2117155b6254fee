from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.people.models import Record


class Variety(Record):
    """A named clone. How it soaks is kept per variety, never per species."""

    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    species = models.CharField(_("species"), max_length=120, blank=True)
    note = models.TextField(_("note"), blank=True)
    opinion = models.TextField(_("opinion"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("variety")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_variety_a_name",
                violation_error_message=_("This book has a variety of that name already."),
            ),
        ]

    def __str__(self):
        return self.name


class Bed(Record):
    """A piece of ground."""

    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    area_m2 = models.FloatField(_("area in square metres"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("bed")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_bed_a_name",
                violation_error_message=_("This book has a bed of that name already."),
            ),
            models.CheckConstraint(
                name="bed_area_is_positive",
                condition=Q(area_m2=None) | Q(area_m2__gt=0),
                violation_error_message=_("A bed's area is more than nothing."),
            ),
        ]

    def __str__(self):
        return self.name


class Planting(Record):
    """One variety in some rows of a bed, from a year until it is grubbed out."""

    bed = models.ForeignKey(Bed, on_delete=models.PROTECT, related_name="plantings", verbose_name=_("bed"))
    variety = models.ForeignKey(Variety, on_delete=models.PROTECT, related_name="plantings", verbose_name=_("variety"))
    rows = models.CharField(_("rows in the bed"), max_length=60, blank=True)
    stools = models.PositiveIntegerField(_("stools"), null=True, blank=True)
    planted_year = models.PositiveSmallIntegerField(_("year planted"))
    planted_on = models.DateField(_("planted on"), null=True, blank=True)
    grubbed_on = models.DateField(_("grubbed out on"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("planting")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="planting_year_is_a_year",
                condition=Q(planted_year__range=(1850, 2200)),
                violation_error_message=_("Write the year it was planted with four figures, such as 2019."),
            ),
            models.CheckConstraint(
                name="planting_day_in_its_year",
                condition=Q(planted_on=None) | Q(planted_on__year=F("planted_year")),
                violation_error_message=_("The day it was planted is not in the year it was planted."),
            ),
            models.CheckConstraint(
                name="planting_grubbed_after_planted",
                condition=Q(grubbed_on=None)
                | (
                    Q(grubbed_on__year__gte=F("planted_year"))
                    & (Q(planted_on=None) | Q(grubbed_on__gte=F("planted_on")))
                ),
                violation_error_message=_("A planting can't be grubbed out before it was planted."),
            ),
        ]

    def __str__(self):
        rows = f", {self.rows}" if self.rows else ""
        return f"{self.variety} – {self.bed}{rows}"


class GapUp(Record):
    """Dead stools replaced in a planting: their first crops are not a full yield."""

    planting = models.ForeignKey(Planting, on_delete=models.PROTECT, related_name="gap_ups", verbose_name=_("planting"))
    on = models.DateField(_("day"))
    stools = models.PositiveIntegerField(_("stools"))

    class Meta(Record.Meta):
        verbose_name = _("gapping up")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="gap_up_of_some_stools",
                condition=Q(stools__gt=0),
                violation_error_message=_("Say how many stools were replaced: one or more."),
            ),
        ]

    def __str__(self):
        return _("%(stools)d stools gapped up in %(planting)s") % {"stools": self.stools, "planting": self.planting}


class HealthNote(Record):
    """What was seen in a bed in summer, to be remembered at grading in winter."""

    class What(models.TextChoices):
        RUST = "rust", _("rust")
        BEETLE = "beetle", _("beetle")
        APHID = "aphid", _("aphid")
        WEEVIL = "weevil", _("weevil")
        SAWFLY = "sawfly", _("sawfly")
        DEER = "deer", _("deer, rabbit, vole")
        WEEDS = "weeds", _("weeds")
        DROUGHT = "drought", _("drought")
        FROST = "frost", _("frost")
        OTHER = "other", _("something else")

    class HowBad(models.TextChoices):
        LITTLE = "little", _("a little")
        SOME = "some", _("some")
        BAD = "bad", _("bad")

    planting = models.ForeignKey(
        Planting, on_delete=models.PROTECT, related_name="health_notes", verbose_name=_("planting")
    )
    on = models.DateField(_("day"))
    what = models.CharField(_("what was seen"), max_length=8, choices=What)
    how_bad = models.CharField(_("how bad"), max_length=6, choices=HowBad, default=HowBad.SOME)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("health note")

    def __str__(self):
        return f"{self.get_what_display()} – {self.planting}"

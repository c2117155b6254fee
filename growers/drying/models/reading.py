from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle, Place, ScaleCorrection, Stack
from growers.furniture.dates import write_day
from growers.furniture.writing import typed
from growers.harvest.models import Cut
from growers.people.models import Entry, Record, weight_whole


class AirFile(Record):
    """A logger's file, kept so that all that was read from it can be taken back at once."""

    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="+", verbose_name=_("place"))
    name = models.CharField(_("name"), max_length=200, blank=True)
    kept = models.PositiveIntegerField(_("readings kept"))
    skipped = models.PositiveIntegerField(_("rows skipped"), default=0)
    first_at = models.DateTimeField(_("first reading"))
    last_at = models.DateTimeField(_("last reading"))

    class Meta(Record.Meta):
        verbose_name = _("logger file")

    def __str__(self):
        return _("%(kept)d readings of the air of %(place)s") % {"kept": self.kept, "place": self.place}


class AirReading(Entry):
    """The air of a store at one moment. Logger rows come by the thousand and keep no history."""

    class How(models.TextChoices):
        HAND = "hand", _("read by hand")
        LOGGER = "logger", _("logger")

    place = models.ForeignKey(Place, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    temperature_c = models.FloatField()
    humidity = models.FloatField()
    how = models.CharField(max_length=6, choices=How, default=How.HAND)
    typed = models.CharField(max_length=80, blank=True)
    file = models.ForeignKey(AirFile, on_delete=models.PROTECT, related_name="+", null=True, blank=True)

    class Meta(Entry.Meta):
        verbose_name = _("air reading")
        constraints = [
            *Entry.Meta.constraints,
            models.UniqueConstraint(
                fields=["place", "at"],
                condition=Q(struck_out_at=None),
                name="one_living_air_reading_a_moment",
                violation_error_message=_("There is a reading of that place at that moment already."),
            ),
            models.CheckConstraint(
                name="air_reading_is_likely",
                condition=Q(temperature_c__range=(-40, 60), humidity__gt=0, humidity__lte=1),
                violation_error_message=_("Air is between −40 and 60 °C, and its humidity between 0 and 100 %."),
            ),
        ]

    def __str__(self):
        return _("air of %(place)s") % {"place": self.place}


class Weighing(Record):
    """A bundle weighed as it stood. Evidence of drying; it never changes the ledger."""

    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+", verbose_name=_("bundle"))
    on = models.DateField(_("day"))
    at = models.DateTimeField(_("when"), null=True, blank=True)
    mass_kg = models.FloatField()
    mass_unit = models.CharField(max_length=8)
    mass_text = models.CharField(_("weight"), max_length=40)
    scale = models.ForeignKey(
        ScaleCorrection,
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("scale as set right"),
    )
    wet = models.BooleanField(_("weighed wet"), default=False)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("weighing")
        constraints = [
            *Record.Meta.constraints,
            weight_whole("weighing_mass_whole"),
        ]

    def __str__(self):
        mass = typed(self.mass_text, self.mass_unit)
        return _("weighing of %(day)s: %(mass)s") % {"day": write_day(self.on), "mass": mass}


def of_one_of_three(name):
    """A reading belongs to exactly one of a cut, a stack, a bundle."""
    return models.CheckConstraint(
        name=name,
        condition=Q(cut__isnull=False, stack=None, bundle=None)
        | Q(cut=None, stack__isnull=False, bundle=None)
        | Q(cut=None, stack=None, bundle__isnull=False),
    )


class Sample(Record):
    """What a reading is of: one cut, one stack, or one bundle."""

    cut = models.ForeignKey(
        Cut, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("cut")
    )
    stack = models.ForeignKey(
        Stack, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("stack")
    )
    bundle = models.ForeignKey(
        Bundle, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("bundle")
    )
    on = models.DateField(_("day"))

    class Meta(Record.Meta):
        abstract = True

    @property
    def of_what(self):
        return self.cut or self.stack or self.bundle


MOST_WET = 6
"""So many times their dry weight, rods are wetter than any willow: drying is reckoned no further than that."""


class OvenTest(Sample):
    """A few rods weighed, dried in an oven to constant weight, weighed again."""

    wet_g = models.FloatField(_("grams before the oven"))
    dry_g = models.FloatField(_("grams after the oven"))
    typed = models.CharField(_("as it was typed"), max_length=80, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Sample.Meta):
        verbose_name = _("oven test")
        constraints = [
            *Record.Meta.constraints,
            of_one_of_three("oven_test_of_one_thing"),
            models.CheckConstraint(
                name="oven_test_loses_weight",
                condition=Q(dry_g__gt=0, wet_g__gte=F("dry_g")),
                violation_error_message=_("Rods weigh no more after the oven than before it."),
            ),
            models.CheckConstraint(
                name="oven_test_is_likely",
                condition=Q(wet_g__lte=F("dry_g") * MOST_WET),
                violation_error_message=_("No rods lose so much in the oven: look at both weights and their units."),
            ),
        ]

    def __str__(self):
        return _("oven test of %(day)s") % {"day": write_day(self.on)}

    @property
    def moisture(self):
        """(wet - dry) / dry, a fraction of the dry mass."""
        return (self.wet_g - self.dry_g) / self.dry_g


class MeterReading(Sample):
    """What a pin meter said. Rods are thin and barked: a rough witness."""

    moisture = models.FloatField(_("moisture"))
    typed = models.CharField(_("as it was typed"), max_length=80, blank=True)
    meter = models.CharField(_("meter"), max_length=80, blank=True)

    class Meta(Sample.Meta):
        verbose_name = _("meter reading")
        constraints = [
            *Record.Meta.constraints,
            of_one_of_three("meter_reading_of_one_thing"),
            models.CheckConstraint(
                name="meter_reading_is_likely",
                condition=Q(moisture__gt=0, moisture__lte=2),
                violation_error_message=_("A meter reads between 0 and 200 %."),
            ),
        ]

    def __str__(self):
        return _("meter reading of %(day)s") % {"day": write_day(self.on)}


class Word(Sample):
    """The grower's word: shown as that, never as measured. The last three are a veto."""

    class Says(models.TextChoices):
        DRY = "dry", _("I call it dry")
        MIDDLE_COLD = "middle_cold", _("middle cold")
        MUSTY = "musty", _("musty")
        MOULD = "mould", _("mould")

    class How(models.TextChoices):
        UNSAID = "", _("not said")
        SNAPS = "snaps", _("snaps crisp")
        LIGHT = "light", _("light in the hand")
        WARM = "warm", _("middle not cold")
        COLOUR = "colour", _("colour")

    says = models.CharField(_("what it says"), max_length=11, choices=Says)
    how = models.CharField(_("how"), max_length=6, choices=How, blank=True, default=How.UNSAID)
    note = models.TextField(_("note"), blank=True)

    class Meta(Sample.Meta):
        verbose_name = _("the grower's word")
        constraints = [*Record.Meta.constraints, of_one_of_three("word_of_one_thing")]

    def __str__(self):
        return _("%(says)s, %(day)s") % {"says": self.get_says_display(), "day": write_day(self.on)}

    @property
    def is_veto(self):
        return self.says != self.Says.DRY

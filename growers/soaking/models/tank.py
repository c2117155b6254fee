from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.people.models import Record


class Tank(Record):
    """Any water that rods stand or lie in."""

    class What(models.TextChoices):
        TANK = "tank", _("tank")
        TROUGH = "trough", _("trough")
        STREAM = "stream", _("stream or pond")
        BATH = "bath", _("bath")
        TUBE = "tube", _("tube or bag")

    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    what = models.CharField(_("what it is"), max_length=6, choices=What, default=What.TANK)
    greatest_length_m = models.FloatField(null=True, blank=True)
    greatest_length_unit = models.CharField(max_length=8, blank=True)
    greatest_length_text = models.CharField(_("longest rod that goes in"), max_length=40, blank=True)
    room_bundles = models.PositiveIntegerField(_("room for bundles of 5 ft"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("tank")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_tank_a_name",
                violation_error_message=_("This book has a tank of that name already."),
            ),
            models.CheckConstraint(
                name="tank_has_room",
                condition=(Q(greatest_length_m=None) | Q(greatest_length_m__gt=0))
                & (Q(room_bundles=None) | Q(room_bundles__gt=0)),
                violation_error_message=_("A tank takes rods of some length, and some bundles."),
            ),
        ]

    def __str__(self):
        return self.name


class WaterReading(Record):
    """The water of a tank at one moment: a number, or a word kept as the band it means."""

    class How(models.TextChoices):
        MEASURED = "measured", _("measured")
        WORD = "word", _("by hand")
        SAME = "same", _("like last time")
        TOPPED = "topped", _("topped up with warm water")
        ICE = "ice", _("ice on it")

    tank = models.ForeignKey(Tank, on_delete=models.PROTECT, related_name="readings", verbose_name=_("tank"))
    at = models.DateTimeField(_("when"))
    temperature_c = models.FloatField()
    low_c = models.FloatField()
    high_c = models.FloatField()
    how = models.CharField(_("how"), max_length=8, choices=How, default=How.MEASURED)
    temperature_text = models.CharField(_("temperature"), max_length=40, blank=True)
    temperature_unit = models.CharField(max_length=8, blank=True)

    class Meta(Record.Meta):
        verbose_name = _("water reading")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["tank", "at", "temperature_c"],
                condition=Q(struck_out_at=None),
                name="one_living_water_reading_a_moment",
                violation_error_message=_("That reading is in the book already."),
            ),
            models.CheckConstraint(
                name="water_is_water",
                condition=Q(
                    temperature_c__range=(-1, 60),
                    low_c__lte=models.F("temperature_c"),
                    high_c__gte=models.F("temperature_c"),
                ),
                violation_error_message=_("Soaking water is between ice and 60 °C."),
            ),
        ]

    def __str__(self):
        return _("water of %(tank)s: %(text)s") % {"tank": self.tank, "text": self.temperature_text}

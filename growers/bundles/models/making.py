from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.people.models import Record


class Making(Record):
    """Bundles in, bundles out: split, merged, re-graded, or made into another type.

    What went in is the takings that point here; what came out is the bundles that do.
    `rejects_ppb` and `bark_ppb` are parts of the dry matter that went in; with the
    parts of the bundles that came out they make the whole.
    """

    class What(models.TextChoices):
        SPLIT = "split", _("split")
        MERGED = "merged", _("tied together")
        REGRADED = "regraded", _("re-graded")
        WHITE = "white", _("made into white")
        BUFF = "buff", _("made into buff")
        STEAMED = "steamed", _("made into steamed")

    what = models.CharField(_("made into"), max_length=8, choices=What)
    on = models.DateField(_("day"))
    hours = models.FloatField(_("hours"), null=True, blank=True)
    rejects_ppb = models.PositiveBigIntegerField(_("part that was rejected"), default=0)
    bark_ppb = models.PositiveBigIntegerField(_("part that was bark"), default=0)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("making")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="making_losses_in_bounds",
                condition=Q(rejects_ppb__lte=1_000_000_000, bark_ppb__lte=1_000_000_000),
                violation_error_message=_("No more can be lost than went in."),
            ),
            models.CheckConstraint(
                name="making_bark_only_off_peeled",
                condition=Q(bark_ppb=0) | Q(what__in=["white", "buff"]),
                violation_error_message=_("Bark comes off only when rods are made into white or buff."),
            ),
            models.CheckConstraint(
                name="making_hours_are_positive",
                condition=Q(hours=None) | Q(hours__gt=0),
                violation_error_message=_("The hours boiled or steamed are more than nothing."),
            ),
        ]

    def __str__(self):
        return f"{self.get_what_display()}, {write_day(self.on)}"

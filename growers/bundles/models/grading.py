from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.furniture.writing import typed
from growers.harvest.models import Cut
from growers.people.models import Record


class Grading(Record):
    """One cut at the grading bench: left and taken up again for weeks, closed with its rejects."""

    cut = models.ForeignKey(Cut, on_delete=models.PROTECT, related_name="+", verbose_name=_("cut"))
    began_on = models.DateField(_("begun on"))
    closed_on = models.DateField(_("finished on"), null=True, blank=True)
    rejects_part_ppb = models.PositiveBigIntegerField(null=True, blank=True)
    rejects_mass_kg = models.FloatField(null=True, blank=True)
    rejects_mass_unit = models.CharField(max_length=8, blank=True)
    rejects_text = models.CharField(_("rejects"), max_length=40, blank=True)

    class Meta(Record.Meta):
        verbose_name = _("grading")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(fields=["cut"], condition=Q(struck_out_at=None), name="one_living_grading_a_cut"),
            models.CheckConstraint(
                name="grading_closed_after_begun",
                condition=Q(closed_on=None) | Q(closed_on__gte=models.F("began_on")),
                violation_error_message=_("Grading can't be finished before it was begun."),
            ),
            models.CheckConstraint(
                name="grading_rejects_one_way",
                condition=Q(rejects_part_ppb=None) | Q(rejects_mass_kg=None),
                violation_error_message=_("Give the rejects as a part or as a weight, not both."),
            ),
            models.CheckConstraint(
                name="grading_rejects_in_bounds",
                condition=(Q(rejects_part_ppb=None) | Q(rejects_part_ppb__range=(0, 1_000_000_000)))
                & (Q(rejects_mass_kg=None) | Q(rejects_mass_kg__gt=0)),
                violation_error_message=_("The rejects are between nothing and all of it."),
            ),
        ]

    @property
    def rejects_said(self):
        return typed(self.rejects_text, self.rejects_mass_unit)

    def __str__(self):
        return _("grading begun %(day)s") % {"day": write_day(self.began_on)}

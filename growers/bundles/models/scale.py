from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.people.models import Record


class ScaleCorrection(Record):
    """A scale found to read wrong for a while: all weighings of the span are corrected at once."""

    from_on = models.DateField(_("from"))
    to_on = models.DateField(_("until"))
    factor = models.FloatField(_("what the scale's figures are multiplied by"))
    why = models.CharField(_("why"), max_length=200)

    class Meta(Record.Meta):
        verbose_name = _("scale set right")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="scale_span_runs_forward",
                condition=Q(to_on__gte=F("from_on")),
                violation_error_message=_("The span ends before it begins."),
            ),
            models.CheckConstraint(
                name="scale_factor_is_likely",
                condition=Q(factor__gte=0.2, factor__lte=5),
                violation_error_message=_("A scale that reads a fifth or five times can't be set right like this."),
            ),
        ]

    def __str__(self):
        return _("scale set right from %(first)s to %(last)s") % {
            "first": write_day(self.from_on),
            "last": write_day(self.to_on),
        }

"""What befalls lifted rods before they are worked: steamed, damped again, or gone over."""

from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import write_day
from growers.people.models import Record

from .batch import Lift, moment
from .tank import Tank

DAY_OF_MINUTES = 24 * 60


class Steam(Record):
    """Lifted rods steamed before they are worked: as a finish, or because they were not ready."""

    goes_with = ("lift",)

    class Purpose(models.TextChoices):
        UNSAID = "", _("not said")
        FINISH = "finish", _("as a finish")
        UNREADY = "unready", _("they were not ready")

    lift = models.ForeignKey(Lift, on_delete=models.PROTECT, related_name="+", verbose_name=_("lift"))
    at = models.DateTimeField(_("when"))
    minutes = models.PositiveIntegerField(_("minutes"), null=True, blank=True)
    purpose = models.CharField(_("what for"), max_length=7, choices=Purpose, blank=True, default=Purpose.UNSAID)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("steaming")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["lift", "at"],
                condition=Q(struck_out_at=None),
                name="one_living_steaming_a_moment",
                violation_error_message=_("That steaming is in the book already."),
            ),
            models.CheckConstraint(
                name="steamed_for_minutes",
                condition=Q(minutes=None) | Q(minutes__range=(1, DAY_OF_MINUTES)),
                violation_error_message=_("Rods are steamed for some minutes, and not longer than a day."),
            ),
        ]

    def __str__(self):
        if self.minutes is None:
            return _("steamed %(at)s") % {"at": moment(self.at)}
        return _("steamed for %(minutes)d minutes, %(at)s") % {"minutes": self.minutes, "at": moment(self.at)}


class Redamp(Record):
    """Lifted rods that had dried out, made damp again: no first soak any more.

    Until when is not known where `until_at` is empty.
    """

    goes_with = ("lift",)

    class How(models.TextChoices):
        DIPPED = "dipped", _("dipped")
        SOAKED = "soaked", _("soaked again in a tank")
        STEAMED = "steamed", _("steamed")

    lift = models.ForeignKey(Lift, on_delete=models.PROTECT, related_name="+", verbose_name=_("lift"))
    how = models.CharField(_("how"), max_length=7, choices=How)
    tank = models.ForeignKey(
        Tank, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("tank")
    )
    at = models.DateTimeField(_("when"))
    until_at = models.DateTimeField(_("until"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("re-soak")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["lift", "at"],
                condition=Q(struck_out_at=None),
                name="one_living_redamp_a_moment",
                violation_error_message=_("That is in the book already."),
            ),
            models.CheckConstraint(
                name="redamp_runs_forward",
                condition=Q(until_at=None) | Q(until_at__gte=F("at")),
                violation_error_message=_("Rods can't come out before they went in."),
            ),
            models.CheckConstraint(
                name="redamp_names_its_tank",
                condition=Q(how="soaked", tank__isnull=False) | (~Q(how="soaked") & Q(tank=None)),
                violation_error_message=_("Rods soaked again were in some tank; dipped or steamed ones in none."),
            ),
        ]

    def __str__(self):
        if self.how == self.How.SOAKED:
            return _("re-soak: in %(tank)s again, %(at)s") % {"tank": self.tank, "at": moment(self.at)}
        return _("re-soak: %(how)s, %(at)s") % {"how": self.get_how_display(), "at": moment(self.at)}


class GoneOver(Record):
    """Lifted rods that were kept damp too long: past it."""

    goes_with = ("lift",)

    class What(models.TextChoices):
        UNSAID = "", _("not said")
        MOULD = "mould", _("mould")
        SOUR = "sour", _("sour smell")
        SOFT = "soft", _("too soft, the bark slips")
        DRY = "dry", _("dried out")
        OTHER = "other", _("something else")

    lift = models.ForeignKey(Lift, on_delete=models.PROTECT, related_name="+", verbose_name=_("lift"))
    on = models.DateField(_("day"))
    what = models.CharField(_("what"), max_length=5, choices=What, blank=True, default=What.UNSAID)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("past it")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["lift"],
                condition=Q(struck_out_at=None),
                name="one_living_gone_over_a_lift",
                violation_error_message=_("These rods are in the book as past it already: correct that."),
            ),
        ]

    def __str__(self):
        what = f": {self.get_what_display()}" if self.what else ""
        return _("past it, %(day)s%(what)s") % {"day": write_day(self.on), "what": what}

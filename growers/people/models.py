import uuid
from zoneinfo import available_timezones

from django.contrib.auth.models import AbstractUser
from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from simple_history.models import HistoricalRecords

UNITS_OF_MASS = [("kg", _("kilograms")), ("lb", _("pounds and ounces"))]
UNITS_OF_LENGTH = [("ft", _("feet and inches")), ("cm", _("centimetres")), ("m", _("metres"))]
UNITS_OF_TEMPERATURE = [("C", "°C"), ("F", "°F")]
HEMISPHERES = [("N", _("northern")), ("S", _("southern"))]


class User(AbstractUser):
    class Meta:
        verbose_name = _("person")


def real_zone(name):
    if name not in available_timezones():
        raise ValidationError(_("“%(name)s” is no time zone: write one like Europe/London."), params={"name": name})


class Holding(models.Model):
    """One grower's whole place. Every record belongs to exactly one."""

    slug = models.SlugField(max_length=40, unique=True)
    name = models.CharField(max_length=120)
    zone = models.CharField(max_length=64, default="Europe/London", validators=[real_zone])
    hemisphere = models.CharField(max_length=1, choices=HEMISPHERES, default="N")
    winter_begins_month = models.PositiveSmallIntegerField(default=7)
    latitude = models.FloatField(null=True, blank=True)
    longitude = models.FloatField(null=True, blank=True)
    mass_unit = models.CharField(max_length=2, choices=UNITS_OF_MASS, default="kg")
    length_unit = models.CharField(max_length=2, choices=UNITS_OF_LENGTH, default="ft")
    temperature_unit = models.CharField(max_length=1, choices=UNITS_OF_TEMPERATURE, default="C")
    currency = models.CharField(max_length=3, default="GBP")
    shrink_limit = models.FloatField(default=0.02)
    indoor_temperature_c = models.FloatField(default=20.0)
    indoor_humidity = models.FloatField(default=0.5)
    invented = models.BooleanField(default=False)
    evidence_no = models.PositiveBigIntegerField(default=0)

    class Meta:
        constraints = [
            models.CheckConstraint(name="holding_month_is_a_month", condition=Q(winter_begins_month__range=(1, 12))),
            models.CheckConstraint(
                name="holding_limit_is_likely", condition=Q(shrink_limit__gt=0, shrink_limit__lt=0.087)
            ),
            models.CheckConstraint(
                name="holding_humidity_is_a_fraction", condition=Q(indoor_humidity__gt=0, indoor_humidity__lt=1)
            ),
        ]

    def __str__(self):
        return self.name


class Membership(models.Model):
    class Role(models.TextChoices):
        KEEPER = "keeper", _("keeps the book")
        HAND = "hand", _("writes in the book")
        READER = "reader", _("looks into the book")

    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="memberships")
    holding = models.ForeignKey(Holding, on_delete=models.PROTECT, related_name="memberships")
    role = models.CharField(max_length=6, choices=Role, default=Role.HAND)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["user", "holding"], name="one_membership_a_person")]

    def __str__(self):
        return f"{self.user} – {self.holding}"

    @property
    def may_write(self):
        return self.role in (self.Role.KEEPER, self.Role.HAND)


class EntryQuerySet(models.QuerySet):
    def of(self, holding, *, struck_out=False):
        """What this holding has, living only unless asked: the one way in."""
        entries = self.filter(holding=holding)
        return entries if struck_out else entries.filter(struck_out_at=None)


class Entry(models.Model):
    """Anything written into a holding's book. Never deleted: struck out.

    `goes_with` names the relations whose striking out takes this along unasked;
    `brings` names those that share this entry's fate (a batch brings its taking);
    `part_of` names the wholes without which no part is struck out or put back (a making's bundles);
    `counters` names the columns that only conditional updates may change;
    `by_itself` is false of what is only ever struck out and put back with the entry it belongs to.
    """

    goes_with = ()
    brings = ()
    part_of = ()
    counters = ()
    by_itself = True

    holding = models.ForeignKey(Holding, on_delete=models.PROTECT, related_name="+")
    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    made_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+", editable=False)
    created_at = models.DateTimeField(default=timezone.now, editable=False)
    struck_out_at = models.DateTimeField(_("struck out"), null=True, blank=True, editable=False)
    struck_out_by = models.ForeignKey(
        User, on_delete=models.PROTECT, related_name="+", null=True, blank=True, editable=False
    )
    struck_out_reason = models.CharField(_("why it was struck out"), max_length=300, blank=True, editable=False)

    objects = EntryQuerySet.as_manager()

    class Meta:
        abstract = True
        constraints = [
            models.CheckConstraint(
                name="%(app_label)s_%(class)s_struck_out_whole",
                condition=Q(struck_out_at=None, struck_out_by=None, struck_out_reason="")
                | (Q(struck_out_at__isnull=False, struck_out_by__isnull=False) & ~Q(struck_out_reason="")),
            )
        ]

    @property
    def kind(self):
        return self._meta.model_name

    @property
    def stands_as(self):
        """The entry by which this one is known to a reader: its whole, where it is none by itself."""
        return self if self.by_itself else getattr(self, self.part_of[0])

    @property
    def named(self):
        """What such an entry is called on a page."""
        return self._meta.verbose_name


def weight_whole(name, prefix=""):
    """A check: a weight stands there with its unit and with what was read off the scale, or not at all.

    Asking for what is not NULL is no repetition: a check that comes to NULL lets a row pass.
    """
    kg, unit, text = (f"{prefix}mass_{part}" for part in ("kg", "unit", "text"))
    there = Q(**{f"{kg}__isnull": False, f"{kg}__gt": 0}) & ~Q(**{unit: ""}) & ~Q(**{text: ""})
    return models.CheckConstraint(
        name=name,
        condition=Q(**{kg: None, unit: "", text: ""}) | there,
        violation_error_message=_("A weight is more than nothing."),
    )


class Record(Entry):
    """An entry whose every change is kept, with who and when."""

    history = HistoricalRecords(inherit=True)

    class Meta(Entry.Meta):
        abstract = True


class Receipt(models.Model):
    """That a form was kept: the same form sent again gets the first result again."""

    holding = models.ForeignKey(Holding, on_delete=models.PROTECT, related_name="+")
    client_id = models.UUIDField()
    action = models.CharField(max_length=80)
    digest = models.CharField(max_length=64)
    result = models.JSONField(default=dict)
    made_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    created_at = models.DateTimeField(default=timezone.now)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["holding", "client_id"], name="one_receipt_a_form")]

    def __str__(self):
        return f"{self.action} {self.client_id}"

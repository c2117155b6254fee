from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.furniture.dates import write_day
from growers.furniture.writing import apart
from growers.harvest.models import LengthClass
from growers.people.models import Record
from growers.stock.models import Promise

from .customer import Customer
from .state import State


class Order(Record):
    """What somebody asked for. It stands until it is filled, line by line or by the grower's word, or cancelled."""

    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="orders", verbose_name=_("customer"))
    on = models.DateField(_("day"))
    wanted_by = models.DateField(_("wanted by"), null=True, blank=True)
    filled_on = models.DateField(_("filled on"), null=True, blank=True)
    cancelled_on = models.DateField(_("cancelled on"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("order")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="order_wanted_after_taken",
                condition=Q(wanted_by=None) | Q(wanted_by__gte=F("on")),
                violation_error_message=_("It can't be wanted before it was ordered."),
            ),
            models.CheckConstraint(
                name="order_ends_one_way",
                condition=Q(filled_on=None) | Q(cancelled_on=None),
                violation_error_message=_("An order is filled or cancelled, not both."),
            ),
            models.CheckConstraint(
                name="order_ends_after_taken",
                condition=Q(filled_on=None, cancelled_on=None)
                | Q(filled_on__isnull=False, filled_on__gte=F("on"))
                | Q(cancelled_on__isnull=False, cancelled_on__gte=F("on")),
                violation_error_message=_("An order can't end before it was taken."),
            ),
        ]

    def __str__(self):
        return _("order of %(whom)s, %(day)s") % {"whom": self.customer, "day": write_day(self.on)}


class OrderLine(Record):
    """One thing that is wanted; what is left open (variety, length, state) may be any."""

    goes_with = ("order",)

    class Wanted(models.TextChoices):
        MASS = "mass", _("by weight")
        RODS = "rods", _("by rods")
        BUNDLES = "bundles", _("by the bundle")

    order = models.ForeignKey(Order, on_delete=models.PROTECT, related_name="lines", verbose_name=_("order"))
    variety = models.ForeignKey(
        Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("variety")
    )
    length_class = models.ForeignKey(
        LengthClass, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("length")
    )
    type = models.CharField(_("type"), max_length=7, choices=Bundle.Type, default=Bundle.Type.BROWN)
    much_how = models.CharField(max_length=7, choices=Wanted)
    much_value = models.FloatField()
    much_unit = models.CharField(max_length=8)
    much_text = models.CharField(_("how much"), max_length=40)
    state = models.CharField(_("wanted as"), max_length=8, choices=State, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("rods ordered")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="order_line_wants_some",
                condition=Q(much_value__gt=0, much_how__in=["mass", "rods", "bundles"])
                & ~Q(much_unit="")
                & ~Q(much_text=""),
                violation_error_message=_("Say how much is wanted: a weight, rods, or bundles."),
            ),
        ]

    def __str__(self):
        return _("%(much)s: %(what)s") % {"much": self.much_text, "what": self.what}

    @property
    def what(self):
        """“Pellock, 5 ft, brown, dry”; what is left open is not named."""
        words = [self.variety and apart(self.variety.name), self.length_class, self.get_type_display()]
        words.append(self.get_state_display() if self.state else "")
        return ", ".join(str(word) for word in words if word)


class OrderPromise(Record):
    """That rods stand promised for a line of an order. Both end together: neither says anything without the other."""

    goes_with = ("order_line", "promise")
    brings = ("promise",)

    order_line = models.ForeignKey(
        OrderLine, on_delete=models.PROTECT, related_name="promises", verbose_name=_("line of the order")
    )
    promise = models.ForeignKey(Promise, on_delete=models.PROTECT, related_name="+", verbose_name=_("promise"))

    class Meta(Record.Meta):
        verbose_name = _("promise for an order")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["promise"], condition=Q(struck_out_at=None), name="one_living_order_a_promise"
            ),
        ]

    def __str__(self):
        return str(self.promise)


class Waiting(Record):
    """Somebody who said: tell me when it is dry."""

    customer = models.ForeignKey(
        Customer, on_delete=models.PROTECT, related_name="waitings", verbose_name=_("customer")
    )
    variety = models.ForeignKey(
        Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("variety")
    )
    length_class = models.ForeignKey(
        LengthClass, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("length")
    )
    type = models.CharField(_("type"), max_length=7, choices=Bundle.Type, blank=True)
    on = models.DateField(_("day"))
    told_on = models.DateField(_("told on"), null=True, blank=True)
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("waiting list")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="waiting_told_after_asked",
                condition=Q(told_on=None) | Q(told_on__gte=F("on")),
                violation_error_message=_("Nobody can be told before they asked."),
            ),
        ]

    def __str__(self):
        return _("%(whom)s waits for %(what)s") % {"whom": self.customer, "what": self.what}

    @property
    def what(self):
        kind = self.get_type_display() if self.type else ""
        words = [self.variety and apart(self.variety.name), self.length_class, kind]
        return ", ".join(str(word) for word in words if word) or str(_("anything dry"))

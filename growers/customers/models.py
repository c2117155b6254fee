import uuid

from django.db import models
from django.db.models import Q
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle, Taking
from growers.people.models import Record


class Customer(Record):
    name = models.CharField(max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    contact = models.CharField(max_length=200, blank=True)
    note = models.TextField(blank=True)

    class Meta(Record.Meta):
        verbose_name = _("customer")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["holding", "name_key"],
                condition=Q(struck_out_at=None),
                name="one_living_customer_a_name",
                violation_error_message=_("This book has a customer of that name already."),
            ),
        ]

    def __str__(self):
        return self.name


class Sale(Record):
    customer = models.ForeignKey(Customer, on_delete=models.PROTECT, related_name="sales", null=True, blank=True)
    on = models.DateField()
    note = models.TextField(blank=True)

    class Meta(Record.Meta):
        verbose_name = _("sale")

    def __str__(self):
        whom = self.customer or _("somebody")
        return _("sale to %(whom)s, %(day)s") % {"whom": whom, "day": date_format(self.on)}


class SaleLine(Record):
    """Rods sold out of one bundle, with what was said of them that day. What was said stays said."""

    goes_with = ("sale",)
    brings = ("taking",)

    class State(models.TextChoices):
        GREEN = "green", _("green")
        SEMI_DRY = "semi_dry", _("semi-dry")
        DRY = "dry", _("dry")

    sale = models.ForeignKey(Sale, on_delete=models.PROTECT, related_name="lines")
    taking = models.ForeignKey(Taking, on_delete=models.PROTECT, related_name="+")
    state_said = models.CharField(max_length=8, choices=State, default=State.DRY)
    answer_said = models.CharField(max_length=12, blank=True)
    how_known_said = models.CharField(max_length=200, blank=True)
    winter_said = models.CharField(max_length=60, blank=True)
    price = models.DecimalField(max_digits=10, decimal_places=2, null=True, blank=True)
    currency = models.CharField(max_length=3, blank=True)

    class Meta(Record.Meta):
        verbose_name = _("rods sold")
        constraints = [
            *Record.Meta.constraints,
            models.UniqueConstraint(
                fields=["taking"], condition=Q(struck_out_at=None), name="one_living_sale_line_a_taking"
            ),
            models.CheckConstraint(
                name="sale_line_price_has_currency",
                condition=Q(price=None, currency="") | (Q(price__isnull=False, price__gte=0) & ~Q(currency="")),
                violation_error_message=_("A price is nothing or more."),
            ),
        ]

    def __str__(self):
        return _("sold to %(whom)s, %(day)s") % {
            "whom": self.sale.customer or _("somebody"),
            "day": date_format(self.sale.on),
        }


class Sheet(Record):
    """A page for customers by a link that can't be guessed. Sharing is a state, so a printed link stays good."""

    counters = ("looked_at",)

    variety = models.ForeignKey(Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True)
    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+", null=True, blank=True)
    token = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shared = models.BooleanField(default=True)
    expires_on = models.DateField(null=True, blank=True)
    looked_at = models.PositiveBigIntegerField(default=0)

    class Meta(Record.Meta):
        verbose_name = _("customer's sheet")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="sheet_of_one_thing",
                condition=Q(variety__isnull=False, bundle=None) | Q(variety=None, bundle__isnull=False),
            ),
            models.UniqueConstraint(
                fields=["variety"], condition=Q(struck_out_at=None), name="one_living_sheet_a_variety"
            ),
            models.UniqueConstraint(
                fields=["bundle"], condition=Q(struck_out_at=None), name="one_living_sheet_a_bundle"
            ),
        ]

    def __str__(self):
        return _("sheet for %(what)s") % {"what": self.variety or self.bundle}

    @classmethod
    def behind(cls, token):
        """The sheet behind its own link or its bundle's tag: the one way in that knows no holding."""
        found = cls.objects.filter(Q(token=token) | Q(bundle__token=token), struck_out_at=None)
        found = found.filter(Q(bundle=None) | Q(bundle__struck_out_at=None))
        found = found.filter(Q(variety=None) | Q(variety__struck_out_at=None))
        return found.select_related("holding", "variety", "bundle__length_class").first()

    def is_open(self, today):
        return self.shared and self.struck_out_at is None and (self.expires_on is None or today <= self.expires_on)

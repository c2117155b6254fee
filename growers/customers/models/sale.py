from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Taking
from growers.drying.models import DrynessAnswer
from growers.furniture.dates import write_day
from growers.people.models import Record

from .customer import Customer
from .order import OrderLine
from .state import State


class Sale(Record):
    customer = models.ForeignKey(
        Customer, on_delete=models.PROTECT, related_name="sales", null=True, blank=True, verbose_name=_("customer")
    )
    on = models.DateField(_("day"))
    note = models.TextField(_("note"), blank=True)

    class Meta(Record.Meta):
        verbose_name = _("sale")

    def __str__(self):
        whom = self.customer or _("somebody")
        return _("sale to %(whom)s, %(day)s") % {"whom": whom, "day": write_day(self.on)}


class SaleLine(Record):
    """Rods sold out of one bundle, with what was said of them that day. What was said stays said."""

    goes_with = ("sale",)
    brings = ("taking",)

    State = State

    sale = models.ForeignKey(Sale, on_delete=models.PROTECT, related_name="lines", verbose_name=_("sale"))
    taking = models.ForeignKey(Taking, on_delete=models.PROTECT, related_name="+", verbose_name=_("rods taken out"))
    order_line = models.ForeignKey(
        OrderLine,
        on_delete=models.PROTECT,
        related_name="filled_by",
        null=True,
        blank=True,
        verbose_name=_("line of the order"),
    )
    state_said = models.CharField(_("sold as"), max_length=8, choices=State, default=State.DRY)
    answer_said = models.CharField(_("dryness as said"), max_length=12, blank=True)
    how_known_said = models.CharField(_("how it was known, as said"), max_length=200, blank=True)
    winter_said = models.CharField(_("winter, as said"), max_length=60, blank=True)
    price = models.DecimalField(_("price"), max_digits=10, decimal_places=2, null=True, blank=True)
    currency = models.CharField(_("currency"), max_length=3, blank=True)

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
            "day": write_day(self.sale.on),
        }

    @property
    def answer_word(self):
        """The answer as it was on the day of sale, in words."""
        said = self.answer_said
        return DrynessAnswer.Answer(said).label if said in DrynessAnswer.Answer.values else said

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.people.models import Record


class Customer(Record):
    name = models.CharField(_("name"), max_length=120)
    name_key = models.CharField(max_length=240, editable=False)
    contact = models.CharField(_("how to reach them"), max_length=200, blank=True)
    note = models.TextField(_("note"), blank=True)

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

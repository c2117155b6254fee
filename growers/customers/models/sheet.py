import uuid

from django.db import models
from django.db.models import Q
from django.utils.translation import gettext_lazy as _

from growers.beds.models import Variety
from growers.bundles.models import Bundle
from growers.people.models import Record


class Sheet(Record):
    """A page for customers by a link that can't be guessed. Sharing is a state, so a printed link stays good."""

    counters = ("looked_at",)

    variety = models.ForeignKey(
        Variety, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("variety")
    )
    bundle = models.ForeignKey(
        Bundle, on_delete=models.PROTECT, related_name="+", null=True, blank=True, verbose_name=_("bundle")
    )
    token = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shared = models.BooleanField(_("shared"), default=True)
    expires_on = models.DateField(_("open until"), null=True, blank=True)
    looked_at = models.PositiveBigIntegerField(_("looked at"), default=0)

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

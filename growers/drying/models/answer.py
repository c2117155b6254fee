from django.db import models
from django.utils.translation import gettext_lazy as _

from growers.bundles.models import Bundle
from growers.people.models import Entry


class PooledRates(Entry):
    """How fast this holding's rods dry, learnt over its bundles on one day. Refitted only when asked."""

    on = models.DateField()
    rates = models.JSONField(default=dict, blank=True)

    class Meta(Entry.Meta):
        verbose_name = _("drying rates")

    def __str__(self):
        return str(self.on)


class DrynessAnswer(Entry):
    """What was last judged of a bundle, with the evidence numbers and the day it was judged on."""

    class Answer(models.TextChoices):
        DRY = "dry", _("Dry")
        SHED_DRY = "shed_dry", _("Shed-dry")
        NOT_YET = "not_yet", _("Not yet")
        CANT_SAY = "cant_say", _("Can't say yet")
        DAMP = "damp_found", _("Damp found")

    goes_with = ("bundle",)
    part_of = ("bundle",)
    by_itself = False

    bundle = models.ForeignKey(Bundle, on_delete=models.PROTECT, related_name="+")
    judged_on = models.DateField()
    bundle_evidence_no = models.PositiveBigIntegerField()
    stack_evidence_no = models.PositiveBigIntegerField(default=0)
    holding_evidence_no = models.PositiveBigIntegerField()
    rates = models.ForeignKey(PooledRates, on_delete=models.PROTECT, related_name="+", null=True, blank=True)
    answer = models.CharField(max_length=10, choices=Answer)
    how_known = models.CharField(max_length=12)
    chance = models.FloatField(null=True, blank=True)
    moisture = models.FloatField(null=True, blank=True)
    moisture_low = models.FloatField(null=True, blank=True)
    moisture_high = models.FloatField(null=True, blank=True)
    shrinkage_to_come = models.FloatField(null=True, blank=True)
    store_moisture = models.FloatField(null=True, blank=True)
    dried_out_on = models.DateField(null=True, blank=True)
    dry_on = models.DateField(null=True, blank=True)
    dry_low_on = models.DateField(null=True, blank=True)
    dry_high_on = models.DateField(null=True, blank=True)
    weigh_next_on = models.DateField(null=True, blank=True)
    measure_next = models.CharField(max_length=12, blank=True)
    word = models.CharField(max_length=11, blank=True)
    details = models.JSONField(default=dict, blank=True)

    class Meta(Entry.Meta):
        verbose_name = _("answer")
        constraints = [
            *Entry.Meta.constraints,
            models.UniqueConstraint(fields=["bundle"], name="one_answer_a_bundle"),
        ]

    def __str__(self):
        return self.get_answer_display()

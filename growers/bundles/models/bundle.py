import uuid

from django.db import models
from django.db.models import F, OuterRef, Q, Subquery
from django.utils.translation import gettext_lazy as _

from growers.harvest.models import LengthClass
from growers.people.models import EntryQuerySet, Record, weight_whole

from ..rules import WHOLE, is_tag, shown
from .grading import Grading
from .making import Making
from .place import Move, Stack
from .scale import ScaleCorrection


class BundleQuerySet(EntryQuerySet):
    def with_some_left(self):
        return self.filter(left_ppb__gt=0)

    def with_place(self):
        """With `place_id` and `place_name`: where each stands now, by its latest move."""
        latest = Move.objects.filter(bundle=OuterRef("pk"), struck_out_at=None).order_by(
            "-on", F("at").desc(nulls_last=True), "-pk"
        )
        return self.annotate(
            place_id=Subquery(latest.values("place_id")[:1]), place_name=Subquery(latest.values("place__name")[:1])
        )

    def standing_in(self, place):
        return self.with_place().filter(place_id=place.pk)

    def of_variety(self, variety):
        """Any part of which is of this variety."""
        origin = Q(origins__cut__planting__variety=variety)
        origin |= Q(origins__purchase__variety=variety) | Q(origins__find__variety=variety)
        return self.filter(origin, origins__struck_out_at=None).distinct()


class Bundle(Record):
    """A tied lot of one length. `left_ppb` is what the ledger says is left of its dry matter."""

    class Type(models.TextChoices):
        BROWN = "brown", _("brown")
        WHITE = "white", _("white")
        BUFF = "buff", _("buff")
        STEAMED = "steamed", _("steamed")

    class Thickness(models.TextChoices):
        UNSAID = "", _("not said")
        FINE = "fine", _("fine")
        PENCIL = "pencil", _("pencil")
        STOUT = "stout", _("stout")

    class Form(models.TextChoices):
        BUNDLE = "bundle", _("bundle")
        BOLT = "bolt", _("bolt")
        HALF_BOLT = "half_bolt", _("half bolt")

    class Made(models.TextChoices):
        GRADED = "graded", _("graded from a cut")
        MAKING = "making", _("made from other bundles")
        BOUGHT = "bought", _("bought in")
        FOUND = "found", _("found without a tag")
        DRIED_AGAIN = "dried_again", _("soaked and dried again")
        RETURNED = "returned", _("sold and brought back")

    goes_with = ("making",)
    part_of = ("making",)
    counters = ("left_ppb", "evidence_no")

    made = models.CharField(_("how it was made"), max_length=11, choices=Made)
    grading = models.ForeignKey(
        Grading, on_delete=models.PROTECT, related_name="bundles", null=True, blank=True, verbose_name=_("grading")
    )
    making = models.ForeignKey(
        Making, on_delete=models.PROTECT, related_name="bundles", null=True, blank=True, verbose_name=_("making")
    )
    part_of_making_ppb = models.PositiveBigIntegerField(_("part of the making"), null=True, blank=True)
    dried_from = models.ForeignKey(
        "self",
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("bundle it was dried from"),
    )
    tag = models.CharField(_("tag"), max_length=7)
    token = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    form = models.CharField(_("form"), max_length=9, choices=Form, default=Form.BUNDLE)
    length_class = models.ForeignKey(LengthClass, on_delete=models.PROTECT, related_name="+", verbose_name=_("length"))
    type = models.CharField(_("type"), max_length=7, choices=Type, default=Type.BROWN)
    thickness = models.CharField(_("thickness"), max_length=6, choices=Thickness, blank=True, default=Thickness.UNSAID)
    butt_mm = models.FloatField(_("thickness at the butt in mm"), null=True, blank=True)
    age_years = models.PositiveSmallIntegerField(_("years of growth"), default=1)
    tied_on = models.DateField(_("tied on"))
    tied_mass_kg = models.FloatField(null=True, blank=True)
    tied_mass_unit = models.CharField(max_length=8, blank=True)
    tied_mass_text = models.CharField(_("weight"), max_length=40, blank=True)
    tied_scale = models.ForeignKey(
        ScaleCorrection,
        on_delete=models.PROTECT,
        related_name="+",
        null=True,
        blank=True,
        verbose_name=_("scale as set right"),
    )
    tied_rods = models.PositiveIntegerField(_("rods"), null=True, blank=True)
    started_moisture = models.FloatField(_("moisture it began with"), null=True, blank=True)
    dried_out_before_on = models.DateField(_("dried out before, on"), null=True, blank=True)
    soaked_before = models.BooleanField(_("soaked before"), default=False)
    stack = models.ForeignKey(
        Stack, on_delete=models.PROTECT, related_name="bundles", null=True, blank=True, verbose_name=_("stack")
    )
    telltale = models.BooleanField(_("tell-tale"), default=False)
    left_ppb = models.PositiveBigIntegerField(default=WHOLE)
    evidence_no = models.PositiveBigIntegerField(default=0)
    note = models.TextField(_("note"), blank=True)

    objects = BundleQuerySet.as_manager()

    class Meta(Record.Meta):
        verbose_name = _("bundle")
        constraints = [
            *Record.Meta.constraints,
            models.CheckConstraint(
                name="bundle_left_in_bounds",
                condition=Q(left_ppb__range=(0, WHOLE)),
                violation_error_message=_("No more can be taken out of a bundle than there is."),
            ),
            models.UniqueConstraint(
                fields=["holding", "tag"],
                name="one_bundle_a_tag",
                violation_error_message=_("Another bundle has that tag."),
            ),
            models.CheckConstraint(
                name="bundle_made_names_its_making",
                condition=Q(made="graded", grading__isnull=False, making=None, dried_from=None)
                | Q(made="making", grading=None, making__isnull=False, dried_from=None)
                | Q(made__in=["bought", "found"], grading=None, making=None, dried_from=None)
                | Q(made__in=["dried_again", "returned"], grading=None, making=None, dried_from__isnull=False),
            ),
            models.CheckConstraint(
                name="bundle_dried_again_was_soaked",
                condition=~Q(made="dried_again") | Q(soaked_before=True),
            ),
            models.CheckConstraint(
                name="bundle_age_is_likely",
                condition=Q(age_years__range=(1, 10)),
                violation_error_message=_("The rods' growth is 1 to 10 years old."),
            ),
            models.CheckConstraint(
                name="bundle_part_of_making_in_bounds",
                condition=Q(making=None, part_of_making_ppb=None)
                | Q(making__isnull=False, part_of_making_ppb__isnull=False, part_of_making_ppb__range=(1, WHOLE)),
            ),
            weight_whole("bundle_tied_mass_whole", "tied_"),
            models.CheckConstraint(
                name="bundle_rods_are_some",
                condition=Q(tied_rods=None) | Q(tied_rods__gt=0),
                violation_error_message=_("A bundle has one rod or more."),
            ),
            models.CheckConstraint(
                name="bundle_butt_is_likely",
                condition=Q(butt_mm=None) | Q(butt_mm__gt=0, butt_mm__lt=100),
                violation_error_message=_("The butt's thickness is between 0 and 100 mm."),
            ),
        ]

    def __str__(self):
        return _("bundle %(tag)s") % {"tag": self.tag_shown}

    @property
    def tag_shown(self):
        return shown(self.tag) if is_tag(self.tag) else self.tag

    @property
    def left(self):
        return self.left_ppb / WHOLE

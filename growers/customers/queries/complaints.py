"""What a complaint can be answered from: what was said on the day of sale, and own soaks at like temperature."""

from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from growers.bundles.queries import ancestry_of
from growers.science import units
from growers.soaking import rules
from growers.soaking.queries import bounds_for

from ..models import Complaint
from . import wording
from .sheet import LIKE_YOUR_WATER_C


@dataclass(frozen=True)
class OwnSoaks:
    """What own soaks say to a complaint: `sentence` sums them up; `shown` are those to read, the likest alone."""

    sentence: str
    of_length: str = ""
    against_rule: str = ""
    shown: tuple = ()
    like: bool = False

    @property
    def answer(self):
        """All of it in one paragraph, to begin an answer with."""
        return " ".join(filter(None, [self.sentence, self.of_length, self.against_rule]))


def own_soaks(complaint):
    bundle = complaint.about
    ancestry = ancestry_of([bundle])[bundle.pk]
    against_rule = rule_beside(complaint, bundle)
    if ancestry.variety is None:
        mixed = _("These rods are of more than one variety: no soak of ours speaks for them.")
        unknown = _("Of what variety these rods are is not known: no soak of ours speaks for them.")
        return OwnSoaks(mixed if ancestry.mixed else unknown, against_rule=against_rule)
    bounds = bounds_for(ancestry.variety, bundle.type).soaks
    near = [bound for bound in bounds if like(complaint, bound)]
    words = {"name": ancestry.variety.name, "soaks": soaks_summed_up(complaint, bounds)}
    return OwnSoaks(
        sentence=_("Our own soaks of %(name)s: %(soaks)s.") % words,
        of_length=of_length(bounds, bundle.length_class),
        against_rule=against_rule,
        shown=tuple(wording.soaks_in_words(near or bounds)),
        like=bool(near),
    )


def batches(bounds):
    return len({bound.batch.pk for bound in bounds})


def like(complaint, bound):
    """Whether a soak was in water like that of the complaint: as near as a reader of a sheet is shown."""
    if complaint.water_c is None or bound.water is None:
        return False
    low, high = complaint.water_c - LIKE_YOUR_WATER_C, complaint.water_c + LIKE_YOUR_WATER_C
    return min(low, complaint.water_low_c) <= bound.water.celsius <= max(high, complaint.water_high_c)


def soaks_summed_up(complaint, bounds):
    """“3 soaks, all at 14 to 18 °C; none this cold”."""
    number = batches(bounds)
    if not number:
        return _("none in the book yet, there is only the rule to go by")
    known = [bound for bound in bounds if bound.water]
    said = ngettext("%(n)d soak", "%(n)d soaks", number) % {"n": number}
    if not known:
        return _("%(soaks)s, in water that nobody measured") % {"soaks": said}
    words = {"soaks": said, "n": batches(known), "water": span(complaint.holding, known)}
    if batches(known) < number:
        said = _("%(soaks)s, %(n)d of them in water that is known, at %(water)s") % words
    elif number == 1:
        said = _("%(soaks)s, at %(water)s") % words
    else:
        said = _("%(soaks)s, all at %(water)s") % words
    return f"{said}; {beside(complaint, known)}"


def beside(complaint, known):
    """How the water of the complaint compares with that of the soaks."""
    if complaint.water_c is None:
        return _("how warm the water of the complaint was is not told")
    near = batches([bound for bound in known if like(complaint, bound)])
    if near:
        return ngettext("%(n)d in water like that", "%(n)d in water like that", near) % {"n": near}
    means = [bound.water.celsius for bound in known]
    if min(means) > complaint.water_c:
        return _("none this cold")
    return _("none this warm") if max(means) < complaint.water_c else _("none in water like that")


def span(holding, known):
    """In whole degrees: what stood in a tank for days is not known closer."""
    unit = holding.temperature_unit
    degrees = [round(units.from_si(bound.water.celsius, unit)) for bound in known]
    low, high = min(degrees), max(degrees)
    if low == high:
        return _("%(high)d °%(unit)s") % {"high": high, "unit": unit}
    return _("%(low)d to %(high)d °%(unit)s") % {"low": low, "high": high, "unit": unit}


def of_length(bounds, length_class):
    number = batches([bound for bound in bounds if bound.label == length_class.label])
    if not bounds:
        return ""
    words = {"n": number, "length": length_class}
    if not number:
        return _("None of them was of %(length)s rods.") % words
    return ngettext("%(n)d of them was of %(length)s rods.", "%(n)d of them were of %(length)s rods.", number) % words


def rule_beside(complaint, bundle):
    """What was told beside the rule of thumb."""
    low, high = rules.rule_days(bundle.type, bundle.length_class.min_m, bundle.length_class.max_m)
    words = {"rule": wording.span(low, high), "length": bundle.length_class, "told": complaint.soaked_text}
    if complaint.soaked_hours is None:
        return _("By the rule %(length)s rods want %(rule)s.") % words
    words["told"] = wording.days(complaint.soaked_hours / 24)
    return _("They had %(told)s in the water; by the rule %(length)s rods want %(rule)s.") % words


def complaints_of(holding, customer=None):
    """The unanswered first, then the latest."""
    found = Complaint.objects.of(holding).select_related(
        "line__sale__customer", "line__taking__bundle__length_class", "bundle__length_class", "customer"
    )
    if customer is not None:
        found = found.filter(line__sale__customer=customer) | found.filter(customer=customer)
    return found.order_by("answered_on", "-on", "-pk")

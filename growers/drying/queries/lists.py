"""What the pages list, and what wants doing about drying."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from django.db.models import OuterRef, Q, Subquery
from django.utils.translation import gettext as _

from growers.bundles.models import Bundle, Place
from growers.bundles.queries import origins_of
from growers.furniture.due import Due

from .. import rules
from ..models import AirFile, AirReading, DrynessAnswer, MeterReading, OvenTest, Weighing, Word
from .course import course_of
from .evidence import evidence_of
from .words import moisture_range, plain

Answer = DrynessAnswer.Answer


def answers_for(bundles) -> dict[int, DrynessAnswer]:
    """The kept answers, by bundle id; a bundle not judged yet has none. `actions.judge_stale` comes first."""
    bundles = list(bundles)
    if not bundles:
        return {}
    kept = DrynessAnswer.objects.of(bundles[0].holding).filter(bundle__in=bundles)
    return {answer.bundle_id: answer for answer in kept}


def weighings_of(bundle):
    return Weighing.objects.of(bundle.holding).filter(bundle=bundle).order_by("-on", "-at", "-pk")


def tests_of(holding):
    """The latest oven tests, meter readings and words, newest first."""
    found = [
        row
        for model in (OvenTest, MeterReading, Word)
        for row in model.objects.of(holding).select_related("bundle", "stack", "cut").order_by("-on", "-pk")[:200]
    ]
    return sorted(found, key=lambda row: (row.on, row.created_at), reverse=True)


def samples_of(bundle):
    """The oven tests, meter readings and words on a bundle itself, its stack and its cuts, newest first."""
    about = Q(bundle=bundle) | Q(cut__in=[origin.cut_id for origin in origins_of(bundle) if origin.cut_id])
    if bundle.stack_id:
        about |= Q(stack=bundle.stack_id)
    found = [
        row
        for model in (OvenTest, MeterReading, Word)
        for row in model.objects.of(bundle.holding).filter(about).select_related("bundle", "stack", "cut")
    ]
    return sorted(found, key=lambda row: (row.on, row.created_at), reverse=True)


def mass_history(bundle, today) -> Any:
    """A bundle's weighings with what they say of its moisture.

    pandas.DataFrame, a row for each weighing and each day with a test alone, in order: `on` (date), `mass_kg` (as
    weighed; NaN on a day with a test alone), `whole_kg` (what the whole bundle would weigh), `left` (the share of it
    then left, 0 to 1), `wet` (weighed wet), `moisture`, `moisture_low`, `moisture_high` (fractions; NaN where not
    known), `weighing` (the Weighing, or None as it was tied).
    """
    import pandas as pd

    evidence = evidence_of([bundle], today)[bundle.pk]
    course = course_of(evidence)
    rows = [
        {
            "on": m.on,
            "mass_kg": m.weighed_kg,
            "whole_kg": m.whole_kg,
            "left": m.left,
            "wet": m.wet,
            "weighing": m.weighing,
        }
        for m in evidence.masses
    ]
    weighed = {row["on"] for row in rows}
    rows += [{"on": day, "wet": False} for day in sorted({test.on for test in evidence.tests} - weighed)]
    for row in rows:
        if belief := course.get(row["on"]):
            spread = rules.Z80 * belief.sd
            row |= {
                "moisture": belief.moisture,
                "moisture_low": max(0.0, belief.moisture - spread),
                "moisture_high": belief.moisture + spread,
            }
    columns = ["on", "mass_kg", "whole_kg", "left", "wet", "moisture", "moisture_low", "moisture_high", "weighing"]
    frame = pd.DataFrame(rows, columns=columns)
    frame[columns[5:8]] = frame[columns[5:8]].astype(float)
    frame["weighing"] = frame["weighing"].astype(object).where(frame["weighing"].notna(), None)
    return frame.sort_values("on", kind="stable", ignore_index=True)


def history_in_words(history):
    """The rows of `mass_history` for the page, latest first, with what each `said` of the moisture."""
    rows = history.astype(object).where(history.notna(), None).to_dict("records")
    for row in rows:
        row["said"] = (
            moisture_range(row["moisture"], row["moisture_low"], row["moisture_high"])
            if row["moisture"] is not None
            else ""
        )
    return rows[::-1]


@dataclass(frozen=True)
class Standing:
    """A place where bundles stand, with its last air reading."""

    place: Place
    bundles: list
    last: AirReading | None


def stores(holding):
    """Every place, with the bundles that have something left there and its latest air reading."""
    standing = {}
    for bundle in (
        Bundle.objects.of(holding).with_some_left().with_place().select_related("length_class").order_by("tag")
    ):
        standing.setdefault(bundle.place_id, []).append(bundle)
    latest = AirReading.objects.of(holding).filter(place=OuterRef("pk")).order_by("-at").values("pk")
    places = list(Place.objects.of(holding).annotate(latest=Subquery(latest[:1])).order_by("name_key"))
    readings = AirReading.objects.of(holding).in_bulk([place.latest for place in places if place.latest])
    return [Standing(place, standing.get(place.pk, []), readings.get(place.latest)) for place in places]


def last_reading(place):
    return AirReading.objects.of(place.holding).filter(place=place).order_by("-at").first()


def readings_of(place):
    return AirReading.objects.of(place.holding).filter(place=place).order_by("-at")


def files_of(place):
    return AirFile.objects.of(place.holding).filter(place=place).order_by("-created_at")


def due(holding, *, today, now):
    """Tell-tales to weigh, stores whose air wants reading, sisters to look at. Judge what is stale first."""
    kept = DrynessAnswer.objects.of(holding).filter(bundle__left_ppb__gt=0, bundle__struck_out_at=None)
    kept = list(kept.select_related("bundle").order_by("bundle__tag"))
    return [*telltales_due(kept, today), *airs_due(holding, kept, now), *sisters_due(kept)]


def telltales_due(kept, today):
    waiting = [answer for answer in kept if answer.bundle.telltale and answer.answer != Answer.DRY]
    waiting = [answer for answer in waiting if answer.weigh_next_on and answer.weigh_next_on <= today]
    for answer in sorted(waiting, key=lambda answer: answer.weigh_next_on):
        bundle = answer.bundle
        yield Due(
            "weigh",
            _("Weigh the tell-tale %(tag)s") % {"tag": bundle.tag_shown},
            "drying:weigh",
            (bundle.uid,),
            when=answer.weigh_next_on,
            why=why_weigh(answer),
            tag=bundle.tag,
        )


def why_weigh(answer):
    if answer.dry_on:
        return _("it may have come near dry")
    last = answer.details.get("last_weighed_on")
    return _("last weighed %(day)s") % {"day": plain(date.fromisoformat(last))} if last else _("never weighed yet")


def airs_due(holding, kept, now):
    """Stores with something not dry in them and no reading for a fortnight."""
    not_dry = {answer.bundle_id for answer in kept if answer.answer != Answer.DRY}
    for standing in stores(holding):
        if not any(bundle.pk in not_dry for bundle in standing.bundles):
            continue
        if standing.last is None or now - standing.last.at > rules.FORTNIGHT:
            yield Due(
                "read_air",
                _("Read the air of %(place)s") % {"place": standing.place},
                "drying:air",
                (standing.place.uid,),
                when=now if standing.last is None else standing.last.at + timedelta(days=14),
                why=_("rods there are not dry yet"),
            )


def sisters_due(kept):
    for answer in kept:
        if "sister_damp" in answer.details.get("asks", ()) and answer.answer != Answer.DAMP:
            yield Due(
                "look_at_sister",
                _("Look into the middle of %(tag)s") % {"tag": answer.bundle.tag_shown},
                "drying:word",
                ("bundle", answer.bundle.uid),
                why=_("a sister in its stack was found damp"),
                urgent=True,
                tag=answer.bundle.tag,
            )

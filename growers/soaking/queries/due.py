"""What wants doing at the tank."""

from datetime import timedelta
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from growers.bundles.queries import ancestry_of
from growers.furniture.due import Due

from .. import rules
from ..models import BenchResult, GoneOver, Lift
from .lifted import lifted_rods
from .reads import named
from .tank import in_water

ASK_AT_BENCH_AFTER = timedelta(days=2)
ASK_AT_BENCH_UNTIL = timedelta(days=30)


def due(holding, *, today, now):
    zone = ZoneInfo(holding.zone)
    return [
        *filter(None, (due_in_water(each, today, zone) for each in in_water(holding, now))),
        *(each for rods in lifted_rods(holding) if not rods.long_ago(now) for each in due_lifted(rods, now)),
        *due_at_bench(holding, now),
    ]


def due_in_water(each, today, zone):
    about = {"page": "soaking:batch", "args": (each.batch.uid,), "tag": each.bundle.tag_shown}
    words = {"name": each.name, "tank": each.batch.tank}
    if each.folds:
        sentence = _("Lift %(name)s out of “%(tank)s”") % words
        why = _("last bend check: %(result)s") % {"result": each.last_check.get_result_display()}
        return Due("lift", sentence, when=each.last_check.at, why=why, urgent=True, **about)
    if each.forgotten and not each.iced:
        sentence = _("Forgotten in “%(tank)s”? %(name)s") % words
        why = _("well past the rule of thumb")
        return Due("forgotten", sentence, when=each.lift_by_at, why=why, urgent=True, **about)
    if each.look_at.astimezone(zone).date() > today:
        return None
    sentence = _("Bend a rod of %(name)s in “%(tank)s”") % words
    why = _("looked at before; once a day") if each.checks else _("by the rule of thumb, a guess")
    if each.iced:
        why = _("ice-cold: look when it thaws")
    return Due("check", sentence, when=each.look_at, why=why, **about)


def due_lifted(rods, now):
    about = {"args": (rods.batch.uid,), "tag": rods.bundle.tag_shown}
    words = {"name": rods.name}
    if rods.mellow and not rods.mellow.ended_at:
        wrapped = rules.elapsed(rods.mellow.began_at, now)
        if wrapped >= timedelta(days=rules.MELLOW_DAYS[0]):
            yield Due(
                "unwrap",
                _("Unwrap %(name)s") % words,
                page="soaking:unwrap",
                args=(rods.mellow.uid,),
                when=rods.mellow.began_at + timedelta(days=rules.MELLOW_DAYS[0]),
                why=_("wrapped a day or two, a guess"),
                urgent=wrapped > timedelta(days=rules.MELLOW_DAYS[1]),
                tag=rods.bundle.tag_shown,
            )
    if rods.gone_over:
        sentence = _("Dry %(name)s again, or throw it out") % words
        yield Due("clear", sentence, page="soaking:batch", why=str(rods.gone_over), **about)
        return
    if rods.bench and rods.bench[-1].result == BenchResult.Result.TOO_WET:
        again_at = rods.bench[-1].at + timedelta(days=rules.MELLOW_DAYS[0])
        if now >= again_at:
            sentence = _("Try %(name)s at the bench again") % words
            why = _("too wet before: it has stood a day longer")
            yield Due(
                "bench", sentence, "soaking:bench", (rods.lift.uid,), when=again_at, why=why, tag=rods.bundle.tag_shown
            )
    if now >= rods.use_by_at - timedelta(days=1):
        past = now > rods.use_by_at
        sentence = _("Still workable? %(name)s") if past else _("Use up %(name)s")
        yield Due(
            "use_up", sentence % words, "soaking:batch", when=rods.use_by_at, why=why_use(rods), urgent=True, **about
        )


def why_use(rods):
    days = {"days": rods.keeping.days}
    if rods.keeping.own:
        return _("in your book such rods went over after %(days)d days") % days
    return _("soaked rods keep about %(days)d days wrapped damp, a guess") % days


def due_at_bench(holding, now):
    """Lifts of which nobody has said yet how they were to work."""
    span = (now - ASK_AT_BENCH_UNTIL, now - ASK_AT_BENCH_AFTER)
    lifts = Lift.objects.of(holding).filter(until_at__range=span)
    for told in (BenchResult, GoneOver):
        lifts = lifts.exclude(pk__in=told.objects.of(holding).values("lift"))
    lifts = list(lifts.select_related("batch__taking__bundle__length_class").order_by("at", "pk"))
    bundles = {lift.pk: lift.batch.taking.bundle for lift in lifts}
    ancestry = ancestry_of(bundles.values())
    for lift in lifts:
        bundle = bundles[lift.pk]
        yield Due(
            "bench",
            _("How was %(name)s at the bench?") % {"name": named(bundle, ancestry[bundle.pk])},
            page="soaking:bench",
            args=(lift.uid,),
            when=lift.until_at + ASK_AT_BENCH_AFTER,
            why=_("that answer pays for all the others"),
            tag=bundle.tag_shown,
        )

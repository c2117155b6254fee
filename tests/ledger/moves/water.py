"""In the tank, out of it, and kept damp."""

from hypothesis import strategies as st

from growers.bundles.models import Bundle, Place
from growers.science.units import Reading
from growers.soaking import actions as soaking
from growers.soaking.models import (
    Batch,
    BenchResult,
    BendCheck,
    DriedAgain,
    GoneOver,
    Lift,
    Mellow,
    Redamp,
    Spoiled,
    Steam,
    Tank,
    WaterReading,
)
from growers.soaking.rules import LIKE_LAST_TIME

from .said import (
    Move,
    a,
    days,
    felt,
    hours,
    instants,
    moments,
    muches,
    names,
    notes,
    of_kind,
    or_its_own,
    perhaps_a,
    perhaps_an_instant,
    perhaps_felt,
    perhaps_mass,
    readings,
    rods,
    yes_or_no,
)

tank = {"name": names, "what": of_kind(Tank.What), "greatest_length": st.sampled_from([None, Reading(2.0, "m", "2 m")])}
water = {"at": instants, "temperature": felt | st.just(LIKE_LAST_TIME)}
looked = {"at": instants, "result": of_kind(BendCheck.Result), "rods_tried": rods}
lifted = {"moment": moments, "part": readings, "state": of_kind(Lift.State)}
worked = {"at": instants, "result": of_kind(BenchResult.Result), "note": notes}
steamed = {"at": instants, "minutes": hours, "purpose": of_kind(Steam.Purpose)}
damped = {"how": of_kind(Redamp.How), "at": instants, "hours": hours, "tank": perhaps_a(Tank)}
wraps = of_kind(Mellow.Wrap)

MOVES = [
    Move(soaking.add_tank, **tank),
    Move(soaking.correct_tank, tank=a(Tank), **tank),
    Move(soaking.read_water, tank=a(Tank), **water),
    Move(soaking.correct_waterreading, waterreading=a(WaterReading), **water),
    Move(
        soaking.put_in, bundle=a(Bundle), tank=a(Tank), moment=moments, much=muches, promised_too=yes_or_no,
        water=perhaps_felt | st.just(LIKE_LAST_TIME),
    ),
    Move(soaking.correct_batch, batch=a(Batch), moment=moments, tank=a(Tank), all_under=yes_or_no),
    Move(
        soaking.whole_soak, bundle=a(Bundle), tank=a(Tank), went_in=moments, came_out=moments, much=muches,
        result=of_kind(BenchResult.Result), water=perhaps_felt,
    ),
    Move(soaking.check_bend, batch=a(Batch), **looked),
    Move(soaking.correct_bendcheck, bendcheck=a(BendCheck), **looked),
    Move(soaking.lift, batch=a(Batch), wrap_in=st.none() | wraps, **lifted),
    Move(soaking.correct_lift, lift=a(Lift), **lifted | {"moment": or_its_own(moments, "lift", "moment")}),
    Move(soaking.wrap, lift=a(Lift), began_at=instants, wrap=wraps),
    Move(soaking.unwrap, mellow=a(Mellow), ended_at=instants),
    Move(soaking.correct_mellow, mellow=a(Mellow), began_at=instants, ended_at=perhaps_an_instant, wrap=wraps),
    Move(soaking.bench_result, lift=a(Lift), **worked),
    Move(soaking.correct_benchresult, benchresult=a(BenchResult), **worked),
    Move(soaking.steam, lift=a(Lift), **steamed),
    Move(soaking.correct_steam, steam=a(Steam), **steamed),
    Move(soaking.redamp, lift=a(Lift), **damped),
    Move(soaking.correct_redamp, redamp=a(Redamp), **damped),
    Move(soaking.gone_over, lift=a(Lift), on=days, what=of_kind(GoneOver.What)),
    Move(soaking.correct_goneover, goneover=a(GoneOver), on=days, what=of_kind(GoneOver.What)),
    Move(
        soaking.dry_again, batch=a(Batch), on=days, part=readings, mass=perhaps_mass, rods=rods,
        place=perhaps_a(Place),
    ),
    Move(soaking.correct_driedagain, driedagain=a(DriedAgain), on=days, part=readings),
    Move(soaking.spoil, batch=a(Batch), on=days, cause="slimy", part=readings),
    Move(soaking.correct_spoiled, spoiled=a(Spoiled), on=days, cause="black spots", part=readings),
]  # fmt: skip

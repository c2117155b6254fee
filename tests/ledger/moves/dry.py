"""What tells of drying: weighings, tests, the grower's word, the air; and the answers judged from it."""

from datetime import timedelta

from django.core.files.base import ContentFile
from hypothesis import strategies as st

from growers.bundles.models import Bundle, Place, Stack
from growers.drying import actions as drying
from growers.drying.models import AirReading, MeterReading, OvenTest, Weighing, Word
from growers.harvest.models import Cut
from tests.ledger.book import CUT_ON

from .said import (
    Made,
    Move,
    a,
    at,
    days,
    humidities,
    instants,
    masses,
    of_kind,
    perhaps_an_instant,
    some,
    temperatures,
    yes_or_no,
)


def logger_file(_book, rows):
    lines = [f"{at:%Y-%m-%d %H:%M},{celsius},{percent}" for at, celsius, percent in rows]
    return ContentFile("\n".join(["datetime,temp_c,rh_pct", *lines]).encode(), name="loft.csv")


late = st.just(at(CUT_ON + timedelta(days=300))) | instants
celsius, percent = st.sampled_from([4.5, 6, 9, 12, -60]), st.sampled_from([71, 80, 90, 93.5, 0])
files = Made(
    st.lists(st.tuples(instants, celsius, percent), max_size=4),
    logger_file,
)
weighed = {"on": days, "mass": masses, "at": perhaps_an_instant, "wet": yes_or_no}
oven = {"on": days, "wet_g": masses, "dry_g": masses}
met = {"on": days, "moisture": humidities, "meter": st.sampled_from(["", "pin"])}
word = {"on": days, "says": of_kind(Word.Says), "how": of_kind(Word.How)}
aired = {"at": instants, "temperature": temperatures, "humidity": humidities}

MOVES = [
    Move(drying.weigh, bundle=a(Bundle), **weighed),
    Move(drying.correct_weighing, weighing=a(Weighing), **weighed),
    Move(drying.oven_test, of=a(Cut, Stack, Bundle), **oven),
    Move(drying.correct_oven_test, oventest=a(OvenTest), **oven),
    Move(drying.meter_reading, of=a(Cut, Stack, Bundle), **met),
    Move(drying.correct_meter, meterreading=a(MeterReading), **met),
    Move(drying.give_word, of=a(Cut, Stack, Bundle), **word),
    Move(drying.correct_word, word=a(Word), **word),
    Move(drying.read_air, place=a(Place), **aired),
    Move(drying.correct_air, airreading=a(AirReading), **aired),
    Move(drying.read_air_file, place=a(Place), file=files, now=late),
    Move(drying.judge_stale, today=days),
    Move(drying.judged, bundles=some(Bundle), today=days),
]

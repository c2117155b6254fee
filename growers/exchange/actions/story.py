"""A book told from readable files, through the same actions as the pages use."""

import csv
import re
import tomllib
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from inspect import ismethod
from zoneinfo import ZoneInfo

from growers.baskets import actions as baskets
from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.customers import actions as customers
from growers.drying import actions as drying
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.harvest import actions as harvest
from growers.people import actions as people
from growers.science import units
from growers.soaking import actions as soaking
from growers.stock import actions as stock

STAGES = {
    "baskets": baskets,
    "beds": beds,
    "bundles": bundles,
    "customers": customers,
    "drying": drying,
    "harvest": harvest,
    "people": people,
    "soaking": soaking,
    "stock": stock,
}
YEARS = {"earlier": -1, "last": 0, "next": 1, "after": 2}
DAY = re.compile(
    rf"(?:(?P<year>{'|'.join(YEARS)})-(?P<month>\d\d)-(?P<day>\d\d)|-(?P<ago>\d+)d)(?: (?P<time>\d\d:\d\d))?"
)


class NotYet(Exception):
    """A step of the story that has not come yet, or that stands on one."""


class Story:
    """Turns what a story's files say into what the actions take, and does it.

    `last-12-28` and `next-01-04` are days of the last whole winter and the year after it (`earlier` and `after` are
    the years round them); `-3d 07:10` is three days ago. `@name` is what an earlier step was named, `@name.0` the
    first of several. A step whose day has not come is left out, with all that stands on it.
    """

    def __init__(self, holding, by, today):
        self.holding, self.by, self.today = holding, by, today
        self.zone = ZoneInfo(holding.zone)
        # The last winter whose following October is past: its rods are long cut, dried and sold.
        self.last = today.year - 1 if today > date(today.year, 10, 31) else today.year - 2
        self.named = {}

    def tell_file(self, path):
        """A chapter in TOML, one [[step]] after another; or a table in CSV, whose name says what each row does."""
        if path.suffix == ".toml":
            steps = tomllib.loads(path.read_text("utf-8"))["step"]
        else:
            verb = path.stem.partition(" ")[2]
            with path.open(encoding="utf-8", newline="") as file:
                rows = csv.DictReader(line for line in file if not line.startswith("#"))
                steps = [{"do": verb} | {key: cell for key, cell in row.items() if cell} for row in rows]
        self.tell(steps, path.name)

    def tell(self, steps, where):
        for number, step in enumerate(steps, 1):
            try:
                self.do(**step)
            except NotYet:
                continue
            except Exception as trouble:
                trouble.add_note(f"in {where}, step {number}: {step}")
                raise

    def do(self, **step):
        verb, name = step.pop("do"), step.pop("as", None)
        stage, _dot, action = verb.partition(".")
        said = {key: self.understand(key, value) for key, value in step.items()}
        who = {} if verb in TOLD_ALONE else {"holding": self.holding}
        done = getattr(STAGES[stage], action)(by=self.by, **who, **said)
        if name:
            self.named[name] = done

    def understand(self, key, value):
        if isinstance(value, list):
            return [self.understand(key, each) for each in value]
        if isinstance(value, dict):
            said = {name: self.understand(name, each) for name, each in value.items()}
            return READERS[key](self, said) if key in READERS else said
        if not isinstance(value, str):
            return value
        if value.startswith("@"):
            return self.called(value[1:])
        return READERS[key](self, value) if key in READERS else value

    def called(self, name):
        name, *steps = name.split(".")
        if name not in self.named:
            raise NotYet
        found = self.named[name]
        for step in steps:
            found = found[int(step)] if step.isdigit() else getattr(found, step)
            found = found() if ismethod(found) else found
        return found

    def day(self, text):
        return self.past(text)[0]

    def coming_day(self, text):
        return self.day_and_time(text)[0]

    def past(self, text):
        day, clock = self.day_and_time(text)
        if day >= self.today and text != "-0d":
            raise NotYet
        return day, clock

    def instant(self, text):
        day, clock = self.past(text)
        return datetime.combine(day, clock or time(9), self.zone)

    def moment(self, text):
        """A moment known exactly, or with no hour some time in the working day."""
        day, clock = self.past(text)
        if clock:
            at = datetime.combine(day, clock, self.zone)
            return Moment(at, at, text)
        first, last = (datetime.combine(day, hour, self.zone) for hour in (time(8), time(18)))
        return Moment(first, last, text)

    def day_and_time(self, text):
        said = DAY.fullmatch(text)
        if not said:
            raise ValueError(f"“{text}” is no day of a story")
        clock = time.fromisoformat(said["time"]) if said["time"] else None
        if said["ago"]:
            return self.today - timedelta(days=int(said["ago"])), clock
        return date(self.last + YEARS[said["year"]], int(said["month"]), int(said["day"])), clock

    def word(self, text):
        return {"yes": True, "no": False}[text]


TOLD_ALONE = {"people.strike_out", "people.put_back", "people.correct"}
"""Actions that know the holding by the record they are about."""

READERS = {
    **dict.fromkeys(
        [
            "on",
            "today",
            "from_on",
            "to_on",
            "planted_on",
            "grubbed_on",
            "expires_on",
            "made_on",
            "told_on",
            "wanted_by",
        ],
        Story.day,
    ),
    **dict.fromkeys(["at", "began_at", "ended_at"], Story.instant),
    **dict.fromkeys(["moment", "went_in", "came_out"], Story.moment),
    **dict.fromkeys(
        ["mass", "left_weighs", "rejects_mass", "wet_g", "dry_g"], lambda story, text: units.read_mass(text)
    ),
    **dict.fromkeys(["much", "rejects", "bark"], lambda story, text: read_much(text)),
    **dict.fromkeys(["temperature", "water"], lambda story, text: units.read_temperature(text)),
    **dict.fromkeys(["humidity", "moisture"], lambda story, text: units.read_humidity(text)),
    **dict.fromkeys(
        ["how_many", "rods", "stools", "rods_tried", "pieces", "bundles", "armfuls", "age_years", "planted_year"],
        lambda story, text: int(text),
    ),
    **dict.fromkeys(["wet", "all_under", "promised_too"], Story.word),
    "outs": lambda story, said: stock.Out(**said),
    "price": lambda story, text: Decimal(text),
    **dict.fromkeys(["hours", "minutes"], lambda story, text: units.read_hours(text)),
    "greatest_length": lambda story, text: units.read_length(text),
    "part": lambda story, text: units.read_part(text),
}

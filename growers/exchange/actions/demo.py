"""The invented book, told from readable files through the same actions as the pages use."""

import re
import tomllib
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from zoneinfo import ZoneInfo

from django.conf import settings
from django.db import transaction

from growers.baskets import actions as baskets
from growers.beds import actions as beds
from growers.bundles import actions as bundles
from growers.customers import actions as customers
from growers.drying import actions as drying
from growers.furniture.moments import Moment
from growers.furniture.much import read_much
from growers.harvest import actions as harvest
from growers.people import actions as people
from growers.people.models import Holding, User
from growers.science import units
from growers.soaking import actions as soaking
from growers.stock import actions as stock

STORY = Path(settings.BASE_DIR) / "fixtures" / "demo"
STAGES = {
    "baskets": baskets,
    "beds": beds,
    "bundles": bundles,
    "customers": customers,
    "drying": drying,
    "harvest": harvest,
    "soaking": soaking,
    "stock": stock,
}
DAY = re.compile(r"(?:(?P<year>last|next)-(?P<month>\d\d)-(?P<day>\d\d)|-(?P<ago>\d+)d)(?: (?P<time>\d\d:\d\d))?")


@transaction.atomic
def load_demo(today):
    """Make the invented book if it is not there yet. Returns the sign-in: name and password."""
    about = tomllib.loads((STORY / "holding.toml").read_text("utf-8"))
    sign_in = about["username"], about["password"]
    if Holding.objects.filter(slug=about["slug"]).exists():
        return sign_in
    holding = people.open_book(**about, invented=True)
    story = Story(holding, User.objects.get(username=about["username"]), today)
    for chapter in sorted(STORY.glob("[0-9]*.toml")):
        story.tell(tomllib.loads(chapter.read_text("utf-8"))["step"], chapter.name)
    drying.judge_stale(holding=holding, today=today)
    return sign_in


def tell(steps, *, holding, by, today):
    """Tell steps of a story into a book; returns what was named on the way."""
    story = Story(holding, by, today)
    story.tell(steps, "steps")
    return story.named


class Story:
    """Turns what a story file says into what the actions take.

    `last-12-28` and `next-01-04` are days of the last whole winter and the year after it;
    `-3d 07:10` is three days ago. `@name` is what an earlier step was named, `@name.0` its first.
    """

    def __init__(self, holding, by, today):
        self.holding, self.by, self.today = holding, by, today
        self.zone = ZoneInfo(holding.zone)
        # The last winter whose following October is past: its rods are long cut, dried and sold.
        self.last = today.year - 1 if today > date(today.year, 10, 31) else today.year - 2
        self.named = {}

    def tell(self, steps, where):
        for number, step in enumerate(steps, 1):
            step = dict(step)
            verb, name = step.pop("do"), step.pop("as", None)
            stage, _dot, action = verb.partition(".")
            try:
                said = {key: self.understand(key, value) for key, value in step.items()}
                done = getattr(STAGES[stage], action)(holding=self.holding, by=self.by, **said)
            except Exception as trouble:
                trouble.add_note(f"in {where}, step {number}: {verb} {step}")
                raise
            if name:
                self.named[name] = done

    def understand(self, key, value):
        if isinstance(value, list):
            return [self.understand(key, each) for each in value]
        if isinstance(value, dict):
            return self.an_out(value) if key == "outs" else value
        if not isinstance(value, str):
            return value
        if value.startswith("@"):
            return self.called(value[1:])
        return READERS[key](self, value) if key in READERS else value

    def called(self, name):
        name, *steps = name.split(".")
        found = self.named[name]
        for step in steps:
            found = found[int(step)] if step.isdigit() else getattr(found, step)
        return found

    def an_out(self, said):
        return stock.Out(**{key: self.understand(key, value) for key, value in said.items()})

    def day(self, text):
        return self.day_and_time(text)[0]

    def instant(self, text):
        day, clock = self.day_and_time(text)
        return datetime.combine(day, clock or time(9), self.zone)

    def moment(self, text):
        """A moment known exactly, or with no hour some time in the working day."""
        day, clock = self.day_and_time(text)
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
        year = self.last + (said["year"] == "next")
        return date(year, int(said["month"]), int(said["day"])), clock


READERS = {
    **dict.fromkeys(
        ["on", "today", "from_on", "to_on", "planted_on", "grubbed_on", "expires_on", "made_on"], Story.day
    ),
    **dict.fromkeys(["at", "began_at", "ended_at"], Story.instant),
    **dict.fromkeys(["moment", "went_in", "came_out"], Story.moment),
    **dict.fromkeys(
        ["mass", "left_weighs", "rejects_mass", "wet_g", "dry_g"], lambda story, text: units.read_mass(text)
    ),
    **dict.fromkeys(["much", "rejects", "bark"], lambda story, text: read_much(text)),
    **dict.fromkeys(["temperature", "water"], lambda story, text: units.read_temperature(text)),
    **dict.fromkeys(["humidity", "moisture"], lambda story, text: units.read_humidity(text)),
    "price": lambda story, text: Decimal(text),
    "hours": lambda story, text: units.read_hours(text),
    "greatest_length": lambda story, text: units.read_length(text),
    "part": lambda story, text: units.read_part(text),
    "file": lambda story, text: (STORY / text).open("rb"),
}

import datetime as dt
from zoneinfo import ZoneInfo

from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.translation import gettext_lazy as _

from growers.furniture.dates import read_day, write_day
from growers.furniture.fields.own import OwnField
from growers.furniture.moments import Moment, read_moment, write_moment
from growers.furniture.refusals import Refusal
from growers.furniture.widgets import Typed


class DayField(OwnField):
    """Cleans to a date: “today”, “28 Dec”, 28/12/25. The future is refused unless `future`, which leans forward."""

    kind = "day"
    chips = (_("today"), _("yesterday"))
    default_error_messages = {"required": _("Write the day, such as “today” or “28 Dec”.")}

    def __init__(self, *, future=False, **kwargs):
        kwargs.setdefault("widget", Typed(kind="coming_day" if future else "day"))
        super().__init__(**kwargs)
        self.future = future
        if future:
            self.chips = (_("today"), _("tomorrow"))

    def to_python(self, value):
        if value is None or isinstance(value, dt.date):
            return value
        if not str(value).strip():
            return None
        try:
            return read_day(value, today=self.today, future=self.future)
        except Refusal as refusal:
            raise ValidationError(refusal.sentence, code="day") from refusal

    def prepare_value(self, value):
        return date_format(value, "j M Y") if isinstance(value, dt.date) else value

    def echo(self, value):
        return "" if value is None else write_day(value)


class MomentField(OwnField):
    """Cleans to a `Moment` in the holding's zone: exact (“7:10”), or a range (“this morning”, “about Tuesday”)."""

    kind = "moment"
    chips = (_("now"), _("this morning"), _("yesterday"))
    default_error_messages = {"required": _("Write when, such as “now”, “7:10” or “yesterday 7:10”.")}

    def __init__(self, *, future=False, **kwargs):
        kwargs.setdefault("widget", Typed(kind="coming_moment" if future else "moment"))
        super().__init__(**kwargs)
        self.future = future
        if future:
            self.chips = (_("tomorrow 9:00"), _("Saturday 9:00"))

    @property
    def zone(self):
        return ZoneInfo(self.holding.zone)

    def to_python(self, value):
        if value is None or isinstance(value, Moment):
            return value
        if not str(value).strip():
            return None
        try:
            return read_moment(value, zone=self.zone, now=self.now, future=self.future)
        except Refusal as refusal:
            raise ValidationError(refusal.sentence, code="moment") from refusal

    def prepare_value(self, value):
        """So written that reading it again on any later day gives the same moment."""
        if isinstance(value, dt.datetime):
            value = Moment(value, value, "")
        if not isinstance(value, Moment):
            return value
        at, until = value.at.astimezone(self.zone), value.until.astimezone(self.zone)
        day, hour = date_format(at, "j M Y"), date_format(at, "G:i")
        if value.exact:
            return f"{day} {hour}"
        if until - at >= dt.timedelta(hours=23) and hour == "0:00":
            return day
        end = date_format(until, "G:i")
        return f"{day} {hour}-{'24:00' if end == '0:00' else end}"

    def echo(self, value):
        return "" if value is None else write_moment(value, self.zone)

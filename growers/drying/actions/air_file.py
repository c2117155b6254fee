"""A logger's file: rows of `datetime,temp_c,rh_pct`, read strictly, for one wrong column spoils a winter's answers."""

from zoneinfo import ZoneInfo

from django.db import transaction
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal
from growers.people.actions import before_strike_out, new_evidence, on_put_back, on_strike_out, write

from ..models import AirFile, AirReading

COLUMNS = ["datetime", "temp_c", "rh_pct"]
MOST_BYTES, MOST_ROWS = 20_000_000, 200_000
LIKELY_C = (-30.0, 50.0)
WARM_SHED_C = 32.0
"""Half a logger's rows above this are no store's air: most likely they are °F."""
WITH_FILE = "with its file"


@transaction.atomic
def read_air_file(*, holding, by, place, file, now):
    """Keep a logger's readings of a store; those in the book already are skipped. Returns the AirFile."""
    rows = read_rows(file, ZoneInfo(holding.zone))
    if rows["at"].max() > now:
        line = rows.loc[rows["at"] > now, "line"].iloc[0]
        raise Refusal(_("Line %(line)d has not come yet. Is the logger's clock right?") % {"line": line}, field="file")
    found = len(rows)
    taken = AirReading.objects.of(holding).filter(place=place, at__range=(rows["at"].min(), rows["at"].max()))
    rows = rows.drop_duplicates("at")
    rows = rows[~rows["at"].isin(list(taken.values_list("at", flat=True)))]
    if rows.empty:
        raise Refusal(_("All of these readings are in the book already."), field="file")
    kept = write(
        AirFile(
            holding=holding,
            place=place,
            name=(getattr(file, "name", "") or "")[:200],
            kept=len(rows),
            skipped=found - len(rows),
            first_at=rows["at"].min().to_pydatetime(),
            last_at=rows["at"].max().to_pydatetime(),
        ),
        by=by,
    )
    AirReading.objects.of(holding).bulk_create(
        (
            AirReading(
                holding=holding,
                place=place,
                made_by=by,
                at=row.at.to_pydatetime(),
                temperature_c=row.temp_c,
                humidity=row.rh_pct / 100,
                how=AirReading.How.LOGGER,
                file=kept,
            )
            for row in rows.itertuples()
        ),
        batch_size=1000,
    )
    new_evidence(holding)
    return kept


def read_rows(file, zone):
    """A DataFrame of `line` (in the file), `at` (UTC), `temp_c` and `rh_pct`, in order of time."""
    rows = read_table(file)
    rows["at"] = instants(rows, zone)
    for name in COLUMNS[1:]:
        rows[name] = numbers(rows, name)
    check_humidity(rows)
    check_temperature(rows)
    return rows.sort_values("at", kind="stable")


def read_table(file):
    import pandas as pd

    if getattr(file, "size", 0) > MOST_BYTES:
        raise Refusal(_("That file is too big for a logger's: 20 MB is the most we take."), field="file")
    try:
        text = file.read().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise Refusal(_("That is not a text file. Save the logger's readings as CSV (UTF-8)."), field="file") from None
    lines = text.splitlines()
    head = [name.strip().strip('"').casefold() for name in (lines[0] if lines else "").split(",")]
    if head != COLUMNS:
        fahrenheit = (
            _(" Temperatures in °F have to be turned into °C first.") if any("_f" in name for name in head) else ""
        )
        first = _("The first line must be datetime,temp_c,rh_pct; it is “%(line)s”.") % {
            "line": (lines or [""])[0][:80]
        }
        raise Refusal(first + fahrenheit, field="file")
    kept = [(number, line) for number, line in enumerate(lines[1:], start=2) if line.strip()]
    if not kept:
        raise Refusal(_("There are no readings in that file."), field="file")
    if len(kept) > MOST_ROWS:
        raise Refusal(_("That file has more than %(most)d readings: split it.") % {"most": MOST_ROWS}, field="file")
    cells = [[cell.strip().strip('"') for cell in line.split(",")] for _number, line in kept]
    for (number, line), row in zip(kept, cells, strict=True):
        if len(row) != len(COLUMNS):
            raise bad_line(number, line, _("three values are wanted: the time, °C and per cent"))
    table = pd.DataFrame(cells, columns=COLUMNS)
    table["line"] = [number for number, _line in kept]
    return table


def bad_line(number, text, what):
    words = {"line": number, "text": str(text)[:60], "what": what}
    return Refusal(_("Line %(line)d, “%(text)s”: %(what)s.") % words, field="file")


def first_bad(rows, wrong, name, what):
    if wrong.any():
        row = rows[wrong].iloc[0]
        value = row[name]
        raise bad_line(row["line"], value if isinstance(value, str) else f"{value:g}", what)


def instants(rows, zone):
    """UTC instants. Times without an offset are the holding's own.

    An hour that the clocks leap over is the next one, a repeated one the first.
    """
    import pandas as pd

    said = rows["datetime"]
    offset = said.str.contains(r"(?:Z|[+-]\d{2}:?\d{2})$", regex=True)
    what = _("a time is wanted like 2026-01-31 14:00")
    iso = said.str.fullmatch(r"\d{4}-\d{2}-\d{2}[ T]\d{2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:?\d{2})?")
    first_bad(rows, ~iso, "datetime", what)
    at = pd.Series(pd.NaT, index=rows.index, dtype="datetime64[ns, UTC]")
    if offset.any():
        at[offset] = pd.to_datetime(said[offset], format="ISO8601", errors="coerce", utc=True)
    if not offset.all():
        local = pd.to_datetime(said[~offset], format="ISO8601", errors="coerce")
        first_bad(rows[~offset], local.isna(), "datetime", what)
        first = local.dt.tz_localize(zone, ambiguous=[True] * len(local), nonexistent="shift_forward")
        at[~offset] = first.dt.tz_convert("UTC")
    first_bad(rows, at.isna(), "datetime", what)
    return at


def numbers(rows, name):
    import pandas as pd

    found = pd.to_numeric(rows[name], errors="coerce")
    first_bad(rows, ~found.between(-1e6, 1e6), name, _("a number is wanted, with a point: 12.5"))
    return found


def check_humidity(rows):
    first_bad(rows, rows["rh_pct"] > 100, "rh_pct", _("air holds no more than 100 %"))
    first_bad(rows, rows["rh_pct"] <= 0, "rh_pct", _("no air is as dry as that"))
    if len(rows) > 1 and rows["rh_pct"].max() <= 1:
        raise Refusal(_("The humidities are all 1 or less. They are wanted in per cent: 85, not 0.85."), field="file")


def check_temperature(rows):
    beyond = ~rows["temp_c"].between(*LIKELY_C)
    first_bad(rows, beyond, "temp_c", _("no store is that cold or hot in °C. Are these °F?"))
    if rows["temp_c"].median() > WARM_SHED_C:
        middle = {"middle": round(rows["temp_c"].median())}
        raise Refusal(
            _("Half of these temperatures are above %(middle)d. Are they °F? They are wanted in °C.") % middle,
            field="file",
        )


def rows_of(file, **narrowed):
    return AirReading.objects.of(file.holding, struck_out=True).filter(file=file, **narrowed)


# Rows are struck out and put back with their file by the thousand: no history is lost, for they keep none.
@before_strike_out.register(AirFile)
def _rows_too(record, *, by):
    rows_of(record, struck_out_at=None).update(
        struck_out_at=record.created_at, struck_out_by=by, struck_out_reason=WITH_FILE
    )


@on_strike_out.register(AirFile)
def _same_moment(record, *, by):
    rows_of(record, struck_out_reason=WITH_FILE).update(struck_out_at=record.struck_out_at)
    new_evidence(record.holding)


@on_put_back.register(AirFile)
def _rows_back(record, *, by):
    retaken = AirReading.objects.of(record.holding).filter(place=record.place).values("at")
    rows_of(record, struck_out_reason=WITH_FILE).exclude(at__in=retaken).update(
        struck_out_at=None, struck_out_by=None, struck_out_reason=""
    )
    new_evidence(record.holding)

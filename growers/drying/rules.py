"""Pure rules of dryness: how sure a reading is, and the cut-offs of the answers. Our own starting points, no source.

Moisture is a fraction of the dry mass; an sd of 0.01 is one point. docs/explanation/dryness.md tells why.
"""

from datetime import date, timedelta

# A few rods stand for a bundle: a point near dryness, eight points while green.
NEAR_DRY, GREEN = 0.25, 1.0
SD_NEAR_DRY, SD_GREEN = 0.01, 0.08
METER_TIMES = 2.0  # a pin meter on thin barked rods, against an oven
STARTED_TIMES = 2.0  # what a bundle was made with, against an oven test of its own
SCALE_SD = 0.005  # of the weight, for a weighing that carries a test on

# How much less a test says of a bundle that it was not made of.
SD_OF_STACK, SD_OF_SISTER, SD_OF_OTHER_VARIETY, SD_OF_CUT = 0.02, 0.02, 0.03, 0.03

# What is known grows old: a point in six weeks.
SIX_WEEKS = timedelta(days=42)
SD_A_DAY = 0.01 / SIX_WEEKS.days
# How fast rods follow the air of their store, a day at 10 °C.
RATE_A_DAY = 0.026
SD_OF_RATE = 0.35  # in the logarithm, of a rate found from weighings

TEST_WITHIN = timedelta(days=3)  # a bundle weighed so near its test was weighed at it
AGREE_WITHIN = timedelta(days=14)  # two tests near dryness so near each other are averaged
LIGHTEST = 0.02  # no store dries rods below this: a weighing that says so is not believed

DRY_WITH_BOTH, DRY_WITH_ONE = 0.95, 0.98
SHED_DRY_WITHIN, SHED_DRY_SURE = 0.02, 0.98
SHED_DRY_LIMIT_MORE, SHED_DRY_LIMIT_SURE = 0.01, 0.95
HARDLY = 0.05
Z80 = 1.2816  # four in five lie within so many sd

WEIGH_SOONEST, WEIGH_USUAL, WEIGH_LATEST = timedelta(days=10), SIX_WEEKS, timedelta(days=70)
FURTHEST = timedelta(days=730)
FORTNIGHT = timedelta(days=14)
AIR_DAYS, AIR_HANDFUL, READINGS_A_DAY = 7, 2, 4  # so many logged days, or days read by hand, make a store's air known

# How moist rods are when cut, for a guess by the air alone (about half the weight is lost in drying: common practice).
GREEN_MOISTURE = 1.0
# Common practice, no source: bark-on rods in a shed, from the cut; peeled ones, from the peeling.
MONTHS_BARK_ON, MONTHS_PEELED = 5, 3
# Common practice, no source: no bark-on rods are dry so soon after the cut.
NEVER_DRY_WITHIN = SIX_WEEKS


def sd_of_test(moisture: float) -> float:
    """How sure an oven test is: 0.01 up to a moisture of 0.25, growing evenly to 0.08 at 1.0 and above."""
    part = (moisture - NEAR_DRY) / (GREEN - NEAR_DRY)
    return SD_NEAR_DRY + (SD_GREEN - SD_NEAR_DRY) * min(1.0, max(0.0, part))


def combined(readings: list[tuple[float, float]]) -> tuple[float, float]:
    """One (value, sd) from several independent ones, each weighing as 1/sd²."""
    weights = [1 / sd**2 for _value, sd in readings]
    total = sum(weights)
    return sum(w * value for w, (value, _sd) in zip(weights, readings, strict=True)) / total, total**-0.5


def months_after(day: date, months: int) -> date:
    """The first of the month, so many months after the month of a day."""
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, 1)


def clamped(day: date, earliest: date, latest: date) -> date:
    return max(earliest, min(latest, day))

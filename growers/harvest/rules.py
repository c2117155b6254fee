"""Pure rules of the harvest."""

import itertools

FOOT_M = 0.3048
LONGEST_FT = 9
METRIC_STEP_M, METRIC_FROM_M, METRIC_TO_M = 0.2, 0.8, 2.8


def usual_lengths(system: str) -> list[tuple[str, float, float | None]]:
    """Label, shortest and longest [m] of the lengths that growers commonly sort into.

    In feet by the floor rule, 5 ft being 5 up to 6 ft, the longest open above; or in steps of 20 cm.
    Common practice, no source.
    """
    if system == "ft":
        ends = [round(feet * FOOT_M, 4) for feet in range(3, LONGEST_FT + 1)]
        return [
            (f"{feet} ft", shortest, longest)
            for feet, shortest, longest in zip(range(3, LONGEST_FT + 1), ends, [*ends[1:], None], strict=True)
        ]
    steps = round((METRIC_TO_M - METRIC_FROM_M) / METRIC_STEP_M)
    ends = [round(METRIC_FROM_M + METRIC_STEP_M * step, 1) for step in range(steps + 1)]
    pairs = itertools.pairwise(ends)
    return [(f"{shortest * 100:.0f}-{longest * 100:.0f} cm", shortest, longest) for shortest, longest in pairs]

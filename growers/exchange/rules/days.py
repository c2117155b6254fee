"""Things happen in the order in which the willow moves."""

from django.utils.translation import gettext_lazy as _

from .rule import Rule

YEAR = "CAST(SUBSTR(CAST({day} AS TEXT), 1, 4) AS INTEGER)"
MONTH = "CAST(SUBSTR(CAST({day} AS TEXT), 6, 2) AS INTEGER)"
WINTER = f"({YEAR} - CASE WHEN {MONTH} < {{begins}} THEN 1 ELSE 0 END)".format(
    day="c.first_on", begins="h.winter_begins_month"
)

RULES = [
    Rule(
        "cut_first_day",
        _("A cut begins on the earliest of its cutting days."),
        """
        SELECT 'cut' AS kind, c.id, c.holding_id
        FROM harvest_cut c
        WHERE c.struck_out_at IS NULL AND c.first_on <> (
            SELECT MIN(d."on") FROM harvest_cuttingday d WHERE d.cut_id = c.id AND d.struck_out_at IS NULL)
        """,
    ),
    Rule(
        "one_cut_a_winter",
        _("A planting is cut once a winter, for each age of growth."),
        f"""
        SELECT 'cut' AS kind, MAX(c.id) AS id, c.holding_id
        FROM harvest_cut c
        JOIN people_holding h ON h.id = c.holding_id
        WHERE c.struck_out_at IS NULL
        GROUP BY c.holding_id, c.planting_id, c.age_years, {WINTER}
        HAVING COUNT(*) > 1
        """,  # noqa: S608 - put together from our own words alone
    ),
    Rule(
        "tied_after_cut",
        _("No bundle is tied before its rods were cut, bought or found."),
        """
        SELECT DISTINCT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        JOIN bundles_origin o ON o.bundle_id = b.id AND o.struck_out_at IS NULL
        LEFT JOIN harvest_cut c ON c.id = o.cut_id
        LEFT JOIN bundles_purchase p ON p.id = o.purchase_id
        LEFT JOIN bundles_find f ON f.id = o.find_id
        WHERE b.struck_out_at IS NULL
          AND (b.tied_on < c.first_on OR b.tied_on < p."on" OR b.tied_on < f."on")
        """,
    ),
    Rule(
        "taken_after_tied",
        _("Nothing is taken out of a bundle, and nothing counted in it, before it was tied."),
        """
        SELECT 'taking' AS kind, t.id, t.holding_id
        FROM bundles_taking t JOIN bundles_bundle b ON b.id = t.bundle_id
        WHERE t.struck_out_at IS NULL AND t."on" < b.tied_on
        UNION ALL
        SELECT 'adjustment' AS kind, a.id, a.holding_id
        FROM bundles_adjustment a JOIN bundles_bundle b ON b.id = a.bundle_id
        WHERE a.struck_out_at IS NULL AND a."on" < b.tied_on
        UNION ALL
        SELECT 'count' AS kind, c.id, c.holding_id
        FROM stock_count c JOIN bundles_bundle b ON b.id = c.bundle_id
        WHERE c.struck_out_at IS NULL AND c."on" < b.tied_on
        """,
    ),
    Rule(
        "lifted_after_put_in",
        _("No rods are lifted, or looked at, before they can have been put in the water."),
        """
        SELECT 'lift' AS kind, l.id, l.holding_id
        FROM soaking_lift l JOIN soaking_batch b ON b.id = l.batch_id
        WHERE l.struck_out_at IS NULL AND l.until_at < b.in_at
        UNION ALL
        SELECT 'bendcheck' AS kind, k.id, k.holding_id
        FROM soaking_bendcheck k JOIN soaking_batch b ON b.id = k.batch_id
        WHERE k.struck_out_at IS NULL AND k.at < b.in_at
        """,
    ),
    Rule(
        "worked_after_lifted",
        _("No rods are wrapped, or worked, before they can have been lifted."),
        """
        SELECT 'mellow' AS kind, m.id, m.holding_id
        FROM soaking_mellow m JOIN soaking_lift l ON l.id = m.lift_id
        WHERE m.struck_out_at IS NULL AND m.began_at < l.at
        UNION ALL
        SELECT 'benchresult' AS kind, r.id, r.holding_id
        FROM soaking_benchresult r JOIN soaking_lift l ON l.id = r.lift_id
        WHERE r.struck_out_at IS NULL AND r.at < l.at
        """,
    ),
]

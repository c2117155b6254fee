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
        "weighed_after_tied",
        _("No bundle is weighed, or moved, before it was tied."),
        """
        SELECT 'weighing' AS kind, w.id, w.holding_id
        FROM drying_weighing w JOIN bundles_bundle b ON b.id = w.bundle_id
        WHERE w.struck_out_at IS NULL AND w."on" < b.tied_on
        UNION ALL
        SELECT 'move' AS kind, m.id, m.holding_id
        FROM bundles_move m JOIN bundles_bundle b ON b.id = m.bundle_id
        WHERE m.struck_out_at IS NULL AND m."on" < b.tied_on
        """,
    ),
    Rule(
        "taken_on_its_day",
        _("Rods are taken out on the day on which they were sold, or worked into their basket."),
        """
        SELECT 'saleline' AS kind, l.id, l.holding_id
        FROM customers_saleline l
        JOIN customers_sale s ON s.id = l.sale_id
        JOIN bundles_taking t ON t.id = l.taking_id
        WHERE l.struck_out_at IS NULL AND s."on" <> t."on"
        UNION ALL
        SELECT 'rodsused' AS kind, u.id, u.holding_id
        FROM baskets_rodsused u
        JOIN baskets_basket b ON b.id = u.basket_id
        JOIN bundles_taking t ON t.id = u.taking_id
        WHERE u.struck_out_at IS NULL AND b.made_on <> t."on"
        """,
    ),
    Rule(
        "dried_again_on_its_day",
        _("Rods dried again are tied on the day on which they were dried."),
        """
        SELECT 'driedagain' AS kind, d.id, d.holding_id
        FROM soaking_driedagain d JOIN bundles_bundle b ON b.id = d.bundle_id
        WHERE d.struck_out_at IS NULL AND d."on" <> b.tied_on
        """,
    ),
    Rule(
        "returned_on_its_day",
        _("Rods brought back are tied on the day on which they came, once they were sold."),
        """
        SELECT 'returned' AS kind, r.id, r.holding_id
        FROM customers_returned r
        JOIN bundles_bundle b ON b.id = r.bundle_id
        JOIN customers_saleline l ON l.id = r.line_id
        JOIN customers_sale s ON s.id = l.sale_id
        WHERE r.struck_out_at IS NULL AND (r."on" <> b.tied_on OR r."on" < s."on")
        """,
    ),
    Rule(
        "complained_after_sold",
        _("Nobody complains of rods before they were sold, or tied."),
        """
        SELECT 'complaint' AS kind, c.id, c.holding_id
        FROM customers_complaint c
        JOIN customers_saleline l ON l.id = c.line_id
        JOIN customers_sale s ON s.id = l.sale_id
        WHERE c.struck_out_at IS NULL AND c."on" < s."on"
        UNION ALL
        SELECT 'complaint' AS kind, c.id, c.holding_id
        FROM customers_complaint c JOIN bundles_bundle b ON b.id = c.bundle_id
        WHERE c.struck_out_at IS NULL AND c."on" < b.tied_on
        """,
    ),
    Rule(
        "looked_at_after_made",
        _("No basket is looked at before it was made."),
        """
        SELECT 'stayedtight' AS kind, s.id, s.holding_id
        FROM baskets_stayedtight s JOIN baskets_basket b ON b.id = s.basket_id
        WHERE s.struck_out_at IS NULL AND s."on" < b.made_on
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
        _("No rods are wrapped, steamed, soaked again or worked before they can have been lifted."),
        """
        SELECT 'mellow' AS kind, m.id, m.holding_id
        FROM soaking_mellow m JOIN soaking_lift l ON l.id = m.lift_id
        WHERE m.struck_out_at IS NULL AND m.began_at < l.at
        UNION ALL
        SELECT 'benchresult' AS kind, r.id, r.holding_id
        FROM soaking_benchresult r JOIN soaking_lift l ON l.id = r.lift_id
        WHERE r.struck_out_at IS NULL AND r.at < l.at
        UNION ALL
        SELECT 'steam' AS kind, s.id, s.holding_id
        FROM soaking_steam s JOIN soaking_lift l ON l.id = s.lift_id
        WHERE s.struck_out_at IS NULL AND s.at < l.at
        UNION ALL
        SELECT 'redamp' AS kind, a.id, a.holding_id
        FROM soaking_redamp a JOIN soaking_lift l ON l.id = a.lift_id
        WHERE a.struck_out_at IS NULL AND a.at < l.at
        """,
    ),
]

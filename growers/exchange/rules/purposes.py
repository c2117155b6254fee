"""Rods are taken out for one purpose, and what became of them is written once."""

from django.utils.translation import gettext_lazy as _

from .rule import Rule

# Every living entry that a taking was written for.
WRITTEN_FOR = """
    SELECT 'batch' AS kind, id, holding_id, taking_id, 'soak' AS purpose
    FROM soaking_batch WHERE struck_out_at IS NULL
    UNION ALL
    SELECT 'saleline' AS kind, id, holding_id, taking_id, 'sale' AS purpose
    FROM customers_saleline WHERE struck_out_at IS NULL
    UNION ALL
    SELECT 'rodsused' AS kind, id, holding_id, taking_id, 'work' AS purpose
    FROM baskets_rodsused WHERE struck_out_at IS NULL AND taking_id IS NOT NULL
"""

RULES = [
    Rule(
        "taken_for_its_purpose",
        _("What is soaked was taken out to soak, what is sold to sell, and what is worked dry to work."),
        f"""
        SELECT w.kind, w.id, w.holding_id
        FROM ({WRITTEN_FOR}) w JOIN bundles_taking t ON t.id = w.taking_id
        WHERE t.purpose <> w.purpose
        """,  # noqa: S608 - put together from our own words alone
    ),
    Rule(
        "taken_once",
        _("What was taken out to soak is one batch, and what was taken out to sell is in one sale; nothing is in two."),
        f"""
        SELECT 'taking' AS kind, t.id, t.holding_id
        FROM bundles_taking t LEFT JOIN ({WRITTEN_FOR}) w ON w.taking_id = t.id
        WHERE t.struck_out_at IS NULL
        GROUP BY t.id, t.holding_id, t.purpose
        HAVING COUNT(w.id) > 1 OR (COUNT(w.id) = 0 AND t.purpose IN ('soak', 'sale'))
        """,  # noqa: S608
    ),
    Rule(
        "count_sets_its_bundle_right",
        _("A count sets its own bundle right, on its own day."),
        """
        SELECT 'count' AS kind, c.id, c.holding_id
        FROM stock_count c JOIN bundles_adjustment a ON a.id = c.adjustment_id
        WHERE c.struck_out_at IS NULL AND (c.bundle_id <> a.bundle_id OR c."on" <> a."on")
        """,
    ),
    Rule(
        "set_right_by_a_count",
        _("The ledger is set right by a count, and by one only."),
        """
        SELECT 'adjustment' AS kind, a.id, a.holding_id
        FROM bundles_adjustment a
        WHERE a.struck_out_at IS NULL AND 1 <> (
            SELECT COUNT(*) FROM stock_count c WHERE c.adjustment_id = a.id AND c.struck_out_at IS NULL)
        """,
    ),
    Rule(
        "promise_kept_from_its_bundle",
        _("A promise is kept with rods of the bundle that was promised."),
        """
        SELECT 'promise' AS kind, p.id, p.holding_id
        FROM stock_promise p JOIN bundles_taking t ON t.id = p.kept_by_id
        WHERE p.struck_out_at IS NULL AND p.bundle_id <> t.bundle_id
        """,
    ),
    Rule(
        "dried_again_from_its_batch",
        _("Rods dried again are a bundle of their own, of the bundle that was soaked."),
        """
        SELECT 'driedagain' AS kind, d.id, d.holding_id
        FROM soaking_driedagain d
        JOIN bundles_bundle b ON b.id = d.bundle_id
        JOIN soaking_batch s ON s.id = d.batch_id
        JOIN bundles_taking t ON t.id = s.taking_id
        WHERE d.struck_out_at IS NULL AND (b.dried_from_id IS NULL OR b.dried_from_id <> t.bundle_id)
        UNION ALL
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        WHERE b.struck_out_at IS NULL AND b.made = 'dried_again' AND 1 <> (
            SELECT COUNT(*) FROM soaking_driedagain d WHERE d.bundle_id = b.id AND d.struck_out_at IS NULL)
        """,
    ),
    Rule(
        "brought_back_from_its_sale",
        _("Rods brought back are a bundle of their own, of the bundle that was sold."),
        """
        SELECT 'returned' AS kind, r.id, r.holding_id
        FROM customers_returned r
        JOIN bundles_bundle b ON b.id = r.bundle_id
        JOIN customers_saleline l ON l.id = r.line_id
        JOIN bundles_taking t ON t.id = l.taking_id
        WHERE r.struck_out_at IS NULL AND (b.dried_from_id IS NULL OR b.dried_from_id <> t.bundle_id)
        UNION ALL
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        WHERE b.struck_out_at IS NULL AND b.made = 'returned' AND 1 <> (
            SELECT COUNT(*) FROM customers_returned r WHERE r.bundle_id = b.id AND r.struck_out_at IS NULL)
        """,
    ),
    Rule(
        "brought_back_once",
        _("No more is brought back than was sold."),
        """
        SELECT 'saleline' AS kind, l.id, l.holding_id
        FROM customers_saleline l
        WHERE 1000000000 < (SELECT SUM(r.part_ppb) FROM customers_returned r
                            WHERE r.line_id = l.id AND r.struck_out_at IS NULL)
        """,
    ),
    Rule(
        "order_filled_for_its_customer",
        _("What goes towards an order is sold to whom ordered it, and not before."),
        """
        SELECT 'saleline' AS kind, l.id, l.holding_id
        FROM customers_saleline l
        JOIN customers_sale s ON s.id = l.sale_id
        JOIN customers_orderline w ON w.id = l.order_line_id
        JOIN customers_order o ON o.id = w.order_id
        WHERE l.struck_out_at IS NULL
          AND (s.customer_id IS NULL OR s.customer_id <> o.customer_id OR s."on" < o."on")
        """,
    ),
    Rule(
        "ended_order_promises_nothing",
        _("Nothing stands promised for an order that was filled or cancelled."),
        """
        SELECT 'orderpromise' AS kind, x.id, x.holding_id
        FROM customers_orderpromise x
        JOIN stock_promise p ON p.id = x.promise_id
        JOIN customers_orderline w ON w.id = x.order_line_id
        JOIN customers_order o ON o.id = w.order_id
        WHERE x.struck_out_at IS NULL AND p.released_on IS NULL AND p.kept_by_id IS NULL
          AND (o.cancelled_on IS NOT NULL OR o.filled_on IS NOT NULL)
        """,
    ),
]

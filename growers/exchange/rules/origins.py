"""Ancestry is never lost: whatever a bundle is made of leads back to a cut, a purchase or a find."""

from django.utils.translation import gettext_lazy as _

from .rule import Rule

# Each child with each parent it was made from; then with all it was ever made from.
MADE_FROM = """
    made_from(child, parent) AS (
        SELECT b.id, t.bundle_id
        FROM bundles_bundle b
        JOIN bundles_taking t ON t.making_id = b.making_id AND t.struck_out_at IS NULL
        WHERE b.struck_out_at IS NULL
        UNION
        SELECT b.id, b.dried_from_id
        FROM bundles_bundle b
        WHERE b.dried_from_id IS NOT NULL AND b.struck_out_at IS NULL
    )"""

RULES = [
    Rule(
        "origins_whole",
        _("The origins of a bundle make the whole of it."),
        """
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        WHERE b.struck_out_at IS NULL
          AND 1000000000 <> COALESCE((SELECT SUM(o.part_ppb) FROM bundles_origin o
                                      WHERE o.bundle_id = b.id AND o.struck_out_at IS NULL), 0)
        """,
    ),
    Rule(
        "origin_of_its_grading",
        _("A bundle that was graded comes from the cut of its grading."),
        """
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        JOIN bundles_grading g ON g.id = b.grading_id
        WHERE b.struck_out_at IS NULL AND EXISTS (
            SELECT 1 FROM bundles_origin o
            WHERE o.bundle_id = b.id AND o.struck_out_at IS NULL AND (o.cut_id IS NULL OR o.cut_id <> g.cut_id))
        """,
    ),
    Rule(
        "origin_as_made",
        _("A bundle that was bought in comes from its purchase, and one that was found from its find."),
        """
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        WHERE b.struck_out_at IS NULL AND b.made IN ('bought', 'found') AND EXISTS (
            SELECT 1 FROM bundles_origin o
            WHERE o.bundle_id = b.id AND o.struck_out_at IS NULL
              AND ((b.made = 'bought' AND o.purchase_id IS NULL) OR (b.made = 'found' AND o.find_id IS NULL)))
        """,
    ),
    # A part is rounded by less than one in each source.
    Rule(
        "origins_mixed_rightly",
        _("The origins of a bundle are those of the bundles it was made from, each by its part."),
        """
        SELECT DISTINCT 'bundle' AS kind, d.bundle_id AS id, d.holding_id
        FROM (
            SELECT e.bundle_id, e.holding_id, e.cut_id, e.purchase_id, e.find_id, SUM(e.part) AS odd
            FROM (
                SELECT c.id AS bundle_id, c.holding_id, o.cut_id, o.purchase_id, o.find_id,
                       t.part_of_making_ppb * 0.000000001 * o.part_ppb AS part
                FROM bundles_bundle c
                JOIN bundles_taking t ON t.making_id = c.making_id AND t.struck_out_at IS NULL
                JOIN bundles_origin o ON o.bundle_id = t.bundle_id AND o.struck_out_at IS NULL
                WHERE c.struck_out_at IS NULL
                UNION ALL
                SELECT c.id, c.holding_id, o.cut_id, o.purchase_id, o.find_id, -1.0 * o.part_ppb
                FROM bundles_bundle c
                JOIN bundles_origin o ON o.bundle_id = c.id AND o.struck_out_at IS NULL
                WHERE c.struck_out_at IS NULL AND c.making_id IS NOT NULL
            ) e
            GROUP BY e.bundle_id, e.holding_id, e.cut_id, e.purchase_id, e.find_id
            HAVING ABS(SUM(e.part)) > 3
        ) d
        """,
    ),
    Rule(
        "origins_dried_again",
        _("Rods dried again, or brought back, come from what their bundle came from."),
        """
        SELECT DISTINCT 'bundle' AS kind, d.bundle_id AS id, d.holding_id
        FROM (
            SELECT e.bundle_id, e.holding_id
            FROM (
                SELECT c.id AS bundle_id, c.holding_id, o.cut_id, o.purchase_id, o.find_id, o.part_ppb AS part
                FROM bundles_bundle c
                JOIN bundles_origin o ON o.bundle_id = c.dried_from_id AND o.struck_out_at IS NULL
                WHERE c.struck_out_at IS NULL
                UNION ALL
                SELECT c.id, c.holding_id, o.cut_id, o.purchase_id, o.find_id, -o.part_ppb
                FROM bundles_bundle c
                JOIN bundles_origin o ON o.bundle_id = c.id AND o.struck_out_at IS NULL
                WHERE c.struck_out_at IS NULL AND c.dried_from_id IS NOT NULL
            ) e
            GROUP BY e.bundle_id, e.holding_id, e.cut_id, e.purchase_id, e.find_id
            HAVING SUM(e.part) <> 0
        ) d
        """,
    ),
    Rule(
        "soaked_before_carried",
        _("Rods that were soaked before are known for it in every bundle they go into."),
        f"""
        WITH {MADE_FROM}
        SELECT DISTINCT 'bundle' AS kind, c.id, c.holding_id
        FROM made_from m
        JOIN bundles_bundle c ON c.id = m.child
        JOIN bundles_bundle p ON p.id = m.parent
        WHERE NOT c.soaked_before AND (p.soaked_before OR c.made = 'dried_again')
        """,  # noqa: S608
    ),
    Rule(
        "no_ring",
        _("No bundle is made from itself, by whatever way round."),
        f"""
        WITH RECURSIVE {MADE_FROM},
        above(child, ancestor) AS (
            SELECT child, parent FROM made_from
            UNION
            SELECT a.child, m.parent FROM above a JOIN made_from m ON m.child = a.ancestor
        )
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM above a
        JOIN bundles_bundle b ON b.id = a.child
        WHERE a.child = a.ancestor
        """,  # noqa: S608 - put together from our own words alone
    ),
    Rule(
        "made_after_parents",
        _("No bundle is tied before those it was made from."),
        f"""
        WITH {MADE_FROM}
        SELECT DISTINCT 'bundle' AS kind, c.id, c.holding_id
        FROM made_from m
        JOIN bundles_bundle c ON c.id = m.child
        JOIN bundles_bundle p ON p.id = m.parent
        WHERE c.tied_on < p.tied_on
        """,  # noqa: S608
    ),
    Rule(
        "made_that_day",
        _("The rods of a making are taken out, and its bundles tied, on its day."),
        """
        SELECT 'taking' AS kind, t.id, t.holding_id
        FROM bundles_taking t JOIN bundles_making m ON m.id = t.making_id
        WHERE t.struck_out_at IS NULL AND t."on" <> m."on"
        UNION ALL
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b JOIN bundles_making m ON m.id = b.making_id
        WHERE b.struck_out_at IS NULL AND b.tied_on <> m."on"
        """,
    ),
]

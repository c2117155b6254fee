"""Nothing is lost, nothing appears: the sums of the ledger. A whole is a thousand million parts."""

from django.utils.translation import gettext_lazy as _

from .rule import Rule

RULES = [
    Rule(
        "bundle_left",
        _("What is left of a bundle is the whole, less what was taken out and set right."),
        """
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        WHERE b.left_ppb <> 1000000000
            - COALESCE((SELECT SUM(t.share_ppb) FROM bundles_taking t
                        WHERE t.bundle_id = b.id AND t.struck_out_at IS NULL), 0)
            - COALESCE((SELECT SUM(a.share_ppb) FROM bundles_adjustment a
                        WHERE a.bundle_id = b.id AND a.struck_out_at IS NULL), 0)
        """,
    ),
    Rule(
        "bundle_left_in_bounds",
        _("Between nothing and all of a bundle is left."),
        """
        SELECT 'bundle' AS kind, b.id, b.holding_id
        FROM bundles_bundle b
        WHERE b.left_ppb < 0 OR b.left_ppb > 1000000000
        """,
    ),
    Rule(
        "making_in",
        _("The parts of a making that the bundles which went in stand for make the whole."),
        """
        SELECT 'making' AS kind, m.id, m.holding_id
        FROM bundles_making m
        WHERE m.struck_out_at IS NULL
          AND 1000000000 <> COALESCE((SELECT SUM(t.part_of_making_ppb) FROM bundles_taking t
                                      WHERE t.making_id = m.id AND t.struck_out_at IS NULL), 0)
        """,
    ),
    Rule(
        "making_out",
        _("The bundles that came out of a making, with rejects and bark, make the whole."),
        """
        SELECT 'making' AS kind, m.id, m.holding_id
        FROM bundles_making m
        WHERE m.struck_out_at IS NULL
          AND 1000000000 <> m.rejects_ppb + m.bark_ppb
              + COALESCE((SELECT SUM(b.part_of_making_ppb) FROM bundles_bundle b
                          WHERE b.making_id = m.id AND b.struck_out_at IS NULL), 0)
        """,
    ),
    Rule(
        "batch_in_water",
        _("What of a batch is in the water is the whole, less what was lifted."),
        """
        SELECT 'batch' AS kind, b.id, b.holding_id
        FROM soaking_batch b
        WHERE b.in_water_ppb <> 1000000000
            - COALESCE((SELECT SUM(l.part_ppb) FROM soaking_lift l
                        WHERE l.batch_id = b.id AND l.struck_out_at IS NULL), 0)
        """,
    ),
    Rule(
        "batch_left",
        _("What is left of a batch is the whole, less what was worked, dried again or spoiled."),
        """
        SELECT 'batch' AS kind, b.id, b.holding_id
        FROM soaking_batch b
        WHERE b.left_ppb <> 1000000000
            - COALESCE((SELECT SUM(u.part_of_batch_ppb) FROM baskets_rodsused u
                        WHERE u.batch_id = b.id AND u.struck_out_at IS NULL), 0)
            - COALESCE((SELECT SUM(d.part_ppb) FROM soaking_driedagain d
                        WHERE d.batch_id = b.id AND d.struck_out_at IS NULL), 0)
            - COALESCE((SELECT SUM(s.part_ppb) FROM soaking_spoiled s
                        WHERE s.batch_id = b.id AND s.struck_out_at IS NULL), 0)
        """,
    ),
    Rule(
        "batch_lifted_before_used",
        _("No more of a batch is used than was lifted."),
        """
        SELECT 'batch' AS kind, b.id, b.holding_id
        FROM soaking_batch b
        WHERE b.left_ppb < b.in_water_ppb OR b.in_water_ppb < 0 OR b.left_ppb > 1000000000
        """,
    ),
]

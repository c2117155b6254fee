from dataclasses import dataclass


@dataclass(frozen=True)
class Rule:
    """What must hold of every book. `sql` finds the entries of which it does not: kind, id, holding_id.

    The SQL runs on SQLite and on PostgreSQL alike, and counts for itself: it asks nothing of the code that it judges.
    """

    code: str
    sentence: str
    sql: str

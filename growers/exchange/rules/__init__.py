"""What must hold of a book, told to the database itself."""

from . import days, entries, origins, purposes, shares
from .rule import Rule

__all__ = ["Rule", "all_rules"]


def all_rules():
    return [*shares.RULES, *origins.RULES, *days.RULES, *purposes.RULES, *entries.rules()]

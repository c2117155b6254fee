"""Rods in a trough of Hallow Carr, for the situations at the tank."""

from tests.soaking.conftest import (  # noqa: F401
    batch,
    bundle,
    check,
    cut,
    five_foot,
    lift,
    moment,
    pellock,
    put_in,
    tank,
    utc,
)

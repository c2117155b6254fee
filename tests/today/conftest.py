from tests.customers.conftest import bundle, cut, now, orla, oven, pellock, sell, utc

__all__ = ["bundle", "cut", "now", "orla", "oven", "pellock", "sell", "utc"]

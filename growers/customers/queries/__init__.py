from .due import due
from .said import Said, said_of
from .sales import Line, customers_of, lines_of, named, open_sale, sales_of, total_of
from .sheet import SheetSays, like_this_water, rule_for, sheet_says
from .sheets import local_day, open_sheet, sheet_of, stands_open
from .wording import soaks_in_words

__all__ = [
    "Line",
    "Said",
    "SheetSays",
    "customers_of",
    "due",
    "like_this_water",
    "lines_of",
    "local_day",
    "named",
    "open_sale",
    "open_sheet",
    "rule_for",
    "said_of",
    "sales_of",
    "sheet_of",
    "sheet_says",
    "soaks_in_words",
    "stands_open",
    "total_of",
]

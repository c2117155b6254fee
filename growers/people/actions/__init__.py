from .books import change_role, change_settings, join, let_in, new_evidence, open_book
from .hooks import before_strike_out, on_correct, on_put_back, on_strike_out
from .receipts import AlreadyKept, once
from .striking import StillStands, put_back, strike_out
from .writing import check_whole, correct, write

__all__ = [
    "AlreadyKept",
    "StillStands",
    "before_strike_out",
    "change_role",
    "change_settings",
    "check_whole",
    "correct",
    "join",
    "let_in",
    "new_evidence",
    "on_correct",
    "on_put_back",
    "on_strike_out",
    "once",
    "open_book",
    "put_back",
    "strike_out",
    "write",
]

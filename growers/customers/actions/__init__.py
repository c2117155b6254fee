from .after import answer_complaint, bring_back, complain, correct_complaint, correct_returned
from .customers import add_customer, correct_customer
from .orders import (
    add_line,
    cancel_order,
    close_order,
    correct_order,
    correct_order_line,
    correct_waiting,
    promise_for_order,
    reopen_order,
    take_order,
    told,
    wait_for,
)
from .sales import correct_sale, correct_sale_line, sell, sell_bundles
from .sheets import count_look, share_sheet, withdraw_sheet

__all__ = [
    "add_customer",
    "add_line",
    "answer_complaint",
    "bring_back",
    "cancel_order",
    "close_order",
    "complain",
    "correct_complaint",
    "correct_customer",
    "correct_order",
    "correct_order_line",
    "correct_returned",
    "correct_sale",
    "correct_sale_line",
    "correct_waiting",
    "count_look",
    "promise_for_order",
    "reopen_order",
    "sell",
    "sell_bundles",
    "share_sheet",
    "take_order",
    "told",
    "wait_for",
    "withdraw_sheet",
]

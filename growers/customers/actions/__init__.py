from .customers import add_customer, correct_customer
from .sales import correct_sale, correct_sale_line, sell
from .sheets import count_look, share_sheet, withdraw_sheet

__all__ = [
    "add_customer",
    "correct_customer",
    "correct_sale",
    "correct_sale_line",
    "count_look",
    "sell",
    "share_sheet",
    "withdraw_sheet",
]

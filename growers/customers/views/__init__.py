from .customers import add_customer, correct_customer, customer, customers
from .sales import correct_sale, correct_sale_line, more, sale, sell, sell_more
from .sheets import bundle_sheet, sheet, variety_sheet, withdraw

__all__ = [
    "add_customer",
    "bundle_sheet",
    "correct_customer",
    "correct_sale",
    "correct_sale_line",
    "customer",
    "customers",
    "more",
    "sale",
    "sell",
    "sell_more",
    "sheet",
    "variety_sheet",
    "withdraw",
]

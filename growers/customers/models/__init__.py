from .after import Complaint, Returned
from .customer import Customer
from .order import Order, OrderLine, OrderPromise, Waiting
from .sale import Sale, SaleLine
from .sheet import Sheet
from .state import State

__all__ = [
    "Complaint",
    "Customer",
    "Order",
    "OrderLine",
    "OrderPromise",
    "Returned",
    "Sale",
    "SaleLine",
    "Sheet",
    "State",
    "Waiting",
]

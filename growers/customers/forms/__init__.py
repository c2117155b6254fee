from .after import AnswerForm, BringBackForm, ComplaintForm, CorrectComplaintForm, CorrectReturnedForm
from .customers import CorrectCustomerForm, CustomerForm
from .orders import (
    CorrectLineForm,
    CorrectOrderForm,
    CorrectWaitingForm,
    EndForm,
    LineForm,
    OrderForm,
    PromiseLineForm,
    ReopenForm,
    ToldForm,
    WaitForm,
)
from .sales import CorrectSaleForm, CorrectSaleLineForm, SellBundlesForm, SellForm
from .sheets import AskForm, ShareForm, WithdrawForm

__all__ = [
    "AnswerForm",
    "AskForm",
    "BringBackForm",
    "ComplaintForm",
    "CorrectComplaintForm",
    "CorrectCustomerForm",
    "CorrectLineForm",
    "CorrectOrderForm",
    "CorrectReturnedForm",
    "CorrectSaleForm",
    "CorrectSaleLineForm",
    "CorrectWaitingForm",
    "CustomerForm",
    "EndForm",
    "LineForm",
    "OrderForm",
    "PromiseLineForm",
    "ReopenForm",
    "SellBundlesForm",
    "SellForm",
    "ShareForm",
    "ToldForm",
    "WaitForm",
    "WithdrawForm",
]

from .bench import BuyInForm, FindForm, FinishForm, OtherCutForm, SettleForm, TieForm
from .corrections import (
    CorrectBundleForm,
    CorrectFindForm,
    CorrectGradingForm,
    CorrectMakingForm,
    CorrectMoveForm,
    CorrectPlaceForm,
    CorrectPurchaseForm,
    CorrectStackForm,
)
from .places import LeaveStackForm, MoveForm, PlaceForm, StackUpForm, TelltaleForm

__all__ = [
    "BuyInForm",
    "CorrectBundleForm",
    "CorrectFindForm",
    "CorrectGradingForm",
    "CorrectMakingForm",
    "CorrectMoveForm",
    "CorrectPlaceForm",
    "CorrectPurchaseForm",
    "CorrectStackForm",
    "FindForm",
    "FinishForm",
    "LeaveStackForm",
    "MoveForm",
    "OtherCutForm",
    "PlaceForm",
    "SettleForm",
    "StackUpForm",
    "TelltaleForm",
    "TieForm",
]

from .keeping import CorrectCountForm, CorrectPromiseForm, CountForm, PromiseForm, ReleaseForm
from .making import MakeIntoForm, MergeForm, RegradeForm, SplitForm
from .scale import ScaleForm
from .taking import CorrectTakingForm, GoneForm, TakeOutForm

__all__ = [
    "CorrectCountForm",
    "CorrectPromiseForm",
    "CorrectTakingForm",
    "CountForm",
    "GoneForm",
    "MakeIntoForm",
    "MergeForm",
    "PromiseForm",
    "RegradeForm",
    "ReleaseForm",
    "ScaleForm",
    "SplitForm",
    "TakeOutForm",
]

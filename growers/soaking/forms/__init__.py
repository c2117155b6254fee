from .batch import CheckForm, CorrectBatchForm, CorrectCheckForm, PutInForm, WholeSoakForm
from .kept_damp import (
    CorrectGoneOverForm,
    CorrectRedampForm,
    CorrectSteamForm,
    GoneOverForm,
    RedampForm,
    SteamForm,
)
from .leaving import CorrectDriedAgainForm, CorrectSpoiledForm, DryAgainForm, SpoilForm
from .lifting import (
    BenchForm,
    CorrectBenchForm,
    CorrectLiftForm,
    CorrectMellowForm,
    LiftForm,
    UnwrapForm,
    WrapForm,
)
from .tank import CorrectTankForm, CorrectWaterForm, TankForm, WaterForm

__all__ = [
    "BenchForm",
    "CheckForm",
    "CorrectBatchForm",
    "CorrectBenchForm",
    "CorrectCheckForm",
    "CorrectDriedAgainForm",
    "CorrectGoneOverForm",
    "CorrectLiftForm",
    "CorrectMellowForm",
    "CorrectRedampForm",
    "CorrectSpoiledForm",
    "CorrectSteamForm",
    "CorrectTankForm",
    "CorrectWaterForm",
    "DryAgainForm",
    "GoneOverForm",
    "LiftForm",
    "PutInForm",
    "RedampForm",
    "SpoilForm",
    "SteamForm",
    "TankForm",
    "UnwrapForm",
    "WaterForm",
    "WholeSoakForm",
    "WrapForm",
]

from .batch import CheckForm, CorrectBatchForm, CorrectCheckForm, PutInForm, WholeSoakForm
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
    "CorrectLiftForm",
    "CorrectMellowForm",
    "CorrectSpoiledForm",
    "CorrectTankForm",
    "CorrectWaterForm",
    "DryAgainForm",
    "LiftForm",
    "PutInForm",
    "SpoilForm",
    "TankForm",
    "UnwrapForm",
    "WaterForm",
    "WholeSoakForm",
    "WrapForm",
]

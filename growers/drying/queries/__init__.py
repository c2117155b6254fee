from .air import Store, store_now
from .assess import Assessment, assess, assess_all, moisture_of_dry, moisture_on
from .fitness import counts_as_dry
from .lists import (
    answers_for,
    due,
    files_of,
    history_in_words,
    last_reading,
    mass_history,
    readings_of,
    samples_of,
    stores,
    tests_of,
    weighings_of,
)
from .states import state_on
from .weighing import left_when_weighed, likely_mass
from .words import InWords, chance_in_words, in_words, store_in_words

__all__ = [
    "Assessment",
    "InWords",
    "Store",
    "answers_for",
    "assess",
    "assess_all",
    "chance_in_words",
    "counts_as_dry",
    "due",
    "files_of",
    "history_in_words",
    "in_words",
    "last_reading",
    "left_when_weighed",
    "likely_mass",
    "mass_history",
    "moisture_of_dry",
    "moisture_on",
    "readings_of",
    "samples_of",
    "state_on",
    "store_in_words",
    "store_now",
    "stores",
    "tests_of",
    "weighings_of",
]

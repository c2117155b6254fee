"""How English pages write a day: without it Django writes days the American way."""

DATE_FORMAT = "D j M Y"
SHORT_DATE_FORMAT = "j M Y"
DATETIME_FORMAT = "D j M Y, H:i"
TIME_FORMAT = "H:i"

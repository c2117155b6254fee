"""Reading the tables of fixtures/published."""

import csv
from pathlib import Path

FOLDER = Path(__file__).parents[2] / "fixtures" / "published"


def rows(name):
    """The rows of a table as dictionaries of text, its header left out."""
    lines = (FOLDER / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def header(name):
    lines = (FOLDER / name).read_text(encoding="utf-8").splitlines()
    return [line for line in lines if line.startswith("#")]

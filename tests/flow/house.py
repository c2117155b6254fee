"""The house as pyproject.toml lays it out: the order of the stages is written there and nowhere else."""

import ast
import tomllib
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text())
CONTRACTS = {contract["id"]: contract for contract in PYPROJECT["tool"]["importlinter"]["contracts"]}


def height_of_stages():
    """How far down the flow each part of the house stands: {"science": 0, "charts": 1, "furniture": 1, …}."""
    upwards = reversed(CONTRACTS["flow"]["layers"])
    return {stage.strip(): height for height, layer in enumerate(upwards) for stage in layer.split("|")}


HEIGHT = height_of_stages()


def stage_of(name):
    """The stage that a dotted module name stands in; None outside the stages."""
    parts = name.split(".")
    return parts[1] if parts[0] == "growers" and len(parts) > 1 and parts[1] in HEIGHT else None


def upstream_of(stage):
    """The stages that this one may know: itself and those before it."""
    return {other for other, height in HEIGHT.items() if other == stage or height < HEIGHT[stage]}


def modules(*names):
    """(dotted name, syntax tree) of each module of the house with one of these file names, or in a package so named."""
    for path in sorted((ROOT / "growers").rglob("*.py")):
        parts = path.relative_to(ROOT).with_suffix("").parts
        if "migrations" in parts or (names and not set(parts) & set(names)):
            continue
        yield ".".join(part for part in parts if part != "__init__"), ast.parse(path.read_text())

"""What science must not do: load heavy libraries before they are needed, or know Django."""

import json
import subprocess
import sys

HEAVY = {"pandas", "scipy", "plotly", "pint", "django"}


def loaded_after(program):
    code = f"{program}\nimport json, sys; print(json.dumps(sorted(m for m in sys.modules if '.' not in m)))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return set(json.loads(done.stdout.splitlines()[-1])) & HEAVY


def test_importing_science_loads_nothing_heavy():
    assert loaded_after("import growers.science.units, growers.science.moisture, growers.science.shrinkage") == set()


def test_pint_comes_with_the_first_quantity():
    assert "pint" in loaded_after("from growers.science.units import read_mass; read_mass('3 kg')")


def test_pandas_comes_with_the_first_days():
    program = "from growers.science.moisture import daily_equilibrium as d; d(['2026-03-28'], [10], [0.7])"
    assert loaded_after(program) >= {"pandas"}
    assert not loaded_after(program) & {"django", "plotly"}

"""The import contracts of pyproject.toml hold; and each is shown to catch a planted fault."""

import shutil
import subprocess
import sys

import pytest

from tests.flow.house import ROOT

LINT = [
    sys.executable,
    "-c",
    "from importlinter.cli import lint_imports; raise SystemExit(lint_imports(no_cache=True))",
]


def lint(folder):
    return subprocess.run(LINT, cwd=folder, capture_output=True, text=True, timeout=300)


@pytest.fixture(scope="module")
def copy(tmp_path_factory):
    """A house of the same shape to plant faults in."""
    folder = tmp_path_factory.mktemp("house")
    shutil.copy(ROOT / "pyproject.toml", folder)
    without = shutil.ignore_patterns("__pycache__", "migrations", "templates", "static", "locale")
    shutil.copytree(ROOT / "growers", folder / "growers", ignore=without)
    return folder


@pytest.fixture
def plant(copy):
    """Writes lines into modules of the copy, lints it, and takes them out again."""
    before = {}

    def planted(**lines):
        for module, line in lines.items():
            path = copy / "growers" / (module.replace("__", "/") + ".py")
            path.parent.mkdir(exist_ok=True)
            for file, more in ((path.parent / "__init__.py", ""), (path, line)):
                before[file] = file.read_text() if file.exists() else None
                file.write_text((before[file] or "") + more)
        return lint(copy)

    yield planted
    for path, text in before.items():
        if text is None:
            path.unlink()
        else:
            path.write_text(text)


def test_contracts_hold():
    done = lint(ROOT)
    assert done.returncode == 0, done.stdout + done.stderr


FAULTS = {
    "an import of a later stage, inside a function": (
        "Material flows one way",
        {
            "beds__actions": "\n\ndef planted():\n    import growers.customers.models\n",
            "customers__models": "\n",
        },
    ),
    "a package without a place in the flow": ("Material flows one way", {"weather__models": "\n"}),
    "models that reach queries": (
        "Every stage has the same inside",
        {"beds__models": "\nfrom growers.beds import queries\n", "beds__queries": "\n"},
    ),
    "actions that reach forms": (
        "Every stage has the same inside",
        {"beds__actions": "\nfrom growers.beds import forms\n", "beds__forms": "\n"},
    ),
    "a stray module in a stage": ("Every stage has the same inside", {"beds__utils": "\n"}),
    "trace that writes": (
        "Trace tells what became of things and changes nothing",
        {"trace__winter_flow": "\nfrom growers.beds import actions\n", "beds__actions": "\n"},
    ),
    "science that knows Django": (
        "Science knows nothing of Django",
        {"science__moisture": "\nimport django.conf\n"},
    ),
    "charts that know Django": ("Charts know nothing of Django", {"charts__curve": "\nimport django.conf\n"}),
    "a view that reaches another stage's view": (
        "Only urls.py reaches views",
        {"stock__views": "\nfrom growers.beds import views\n", "beds__views": "\n"},
    ),
    "a query that reaches forms": (
        "Only pages reach forms",
        {"stock__queries": "\nfrom growers.beds import forms\n", "beds__forms": "\n"},
    ),
    "a view that reaches science": (
        "Pages reach science through queries",
        {"stock__views": "\nfrom growers.science import moisture\n", "science__moisture": "\n"},
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_planted_fault_is_caught(fault, plant):
    contract, lines = FAULTS[fault]
    done = plant(**lines)
    assert done.returncode == 1, done.stdout + done.stderr
    assert f"{contract} BROKEN" in " ".join(done.stdout.split())


def test_what_is_open_to_all_passes(plant):
    units = "\nfrom growers.science import units\nfrom growers.furniture import forms\n"
    done = plant(beds__views=units, beds__forms=units, beds__actions="\n", science__units="\n", furniture__forms="\n")
    assert done.returncode == 0, done.stdout + done.stderr

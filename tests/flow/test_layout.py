"""What stands where, and that each thing says why it is there."""

import re

from tests.flow.house import PYPROJECT, ROOT

TOP = {"README.md", "DEVELOPERS.md", "manage.py", "pyproject.toml", "growers", "tests", "fixtures", "docs"}
MADE_BY_TOOLS = re.compile(r"\..*|.*\.egg-info|__pycache__|build|dist")
GENERAL_NAMES = {"utils", "helpers", "services", "managers", "signals"}
LINES = (ROOT / "pyproject.toml").read_text().splitlines()


def canonical(requirement):
    return re.sub(r"[-_.]+", "-", re.match(r"[\w.-]+", requirement)[0]).lower()


def requirements():
    project = PYPROJECT["project"]
    return project["dependencies"] + [each for extra in project["optional-dependencies"].values() for each in extra]


def without_reason(quoted):
    """Those of these strings whose line in pyproject.toml ends without a comment."""
    return [
        item for item in quoted if not any(f'"{item}"' in line and re.search(r'[",]\s+# \w', line) for line in LINES)
    ]


def test_the_top_level_is_as_agreed():
    assert {path.name for path in ROOT.iterdir() if not MADE_BY_TOOLS.fullmatch(path.name)} == TOP


def test_no_module_has_a_general_name():
    found = [
        path for path in (ROOT / "growers").rglob("*") if path.suffix in ("", ".py") and path.stem in GENERAL_NAMES
    ]
    assert found == []


def test_each_folder_of_modules_is_a_package():
    # The contracts do not see a folder without __init__.py.
    folders = {path.parent for path in (ROOT / "growers").rglob("*.py")}
    assert [folder for folder in folders if not (folder / "__init__.py").exists()] == []


def test_each_dependency_has_its_reason():
    assert without_reason(requirements()) == []


def test_each_ignored_lint_rule_has_its_reason():
    lint = PYPROJECT["tool"]["ruff"]["lint"]
    ignored = lint["ignore"] + [rule for rules in lint["per-file-ignores"].values() for rule in rules]
    assert without_reason(ignored) == []


def test_each_dependency_is_pinned_for_a_clean_machine():
    pins = [line for line in (ROOT / ".ci/constraints.txt").read_text().splitlines() if not line.startswith("#")]
    assert all(re.fullmatch(r"[\w.-]+==[\w.]+", pin) for pin in pins)
    assert {canonical(each) for each in requirements()} <= {canonical(pin) for pin in pins}


def test_the_readme_starts_with_two_commands_of_one_line_each():
    blocks = re.findall(r"^```sh\n(.*?)^```$", (ROOT / "README.md").read_text(), re.MULTILINE | re.DOTALL)
    assert [block.count("\n") for block in blocks] == [1, 1]
    demo, tests = blocks
    assert demo.rstrip().endswith("manage.py demo")
    assert tests.rstrip().endswith("pytest -q -n auto")
    assert all(block.startswith("python3 -m venv .venv && ") and "-c .ci/constraints.txt" in block for block in blocks)


def test_decisions_are_numbered_without_a_gap():
    numbers = sorted(int(path.name[:4]) for path in (ROOT / "docs/decisions").glob("*.md"))
    assert numbers == list(range(1, len(numbers) + 1))

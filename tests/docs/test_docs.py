"""What the documentation points to is there, and the commands it shows are real ones."""

import re
from pathlib import Path

import pytest
from django.core.management import get_commands, load_command_class

from growers import settings as kept_settings

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]
LINK = re.compile(r"\[[^\]]*\]\(([^)\s]+)\)")
BLOCK = re.compile(r"^( *)```sh\n(.*?)^ *```$", re.MULTILINE | re.DOTALL)
# Programs of the system and of the database, and of the .venv.
ELSEWHERE = {"cp", "createuser", "createdb", "pg_dump", "pg_restore", "export", "python3"}
IN_VENV = {"python", "pip", "ruff", "lint-imports"}


def short(page):
    return str(page.relative_to(ROOT))


def without_code(text):
    return re.sub(r"^ *```.*?^ *```$", "", text, flags=re.MULTILINE | re.DOTALL)


def anchors(page):
    """The anchors of a page's headings, as readers of Markdown make them."""
    heads = re.findall(r"^#+ (.+)$", without_code(page.read_text(encoding="utf-8")), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).strip().replace(" ", "-") for head in heads}


def broken_links(page, text):
    for link in LINK.findall(without_code(text)):
        if re.match(r"[a-z]+:", link):
            continue
        path, _hash, anchor = link.partition("#")
        there = (page.parent / path).resolve() if path else page
        if not there.exists() or (anchor and anchor not in anchors(there)):
            yield link


@pytest.mark.parametrize("page", PAGES, ids=short)
def test_every_link_leads_somewhere(page):
    assert list(broken_links(page, page.read_text(encoding="utf-8"))) == []


def test_a_broken_link_is_seen():
    page = ROOT / "README.md"
    assert list(broken_links(page, "[a](docs/) [b](docs/no.md) [c](#no-such) [d](https://example.org/)")) == [
        "docs/no.md",
        "#no-such",
    ]


def commands(text):
    """Each command of a page's sh blocks, in words, without the settings before it."""
    for _indent, block in BLOCK.findall(text):
        for line in block.splitlines():
            for command in line.split("&&"):
                yield [word for word in command.split("#")[0].split() if not re.match(r"[A-Z_]+=", word)]


def fault(words):
    """Why a command can't be right; None if it can."""
    program = words[0]
    if not program.startswith("."):
        return None if program in ELSEWHERE else f"{program} is not known"
    if program == ".ci/run":
        return None if (ROOT / program).exists() else f"{program} is not there"
    if program.removeprefix(".venv/bin/") not in IN_VENV:
        return f"{program} is not in the .venv"
    if words[1:2] == ["manage.py"]:
        return fault_of_command(words[2], words[3:])
    return None


def fault_of_command(name, options):
    if name not in get_commands():
        return f"manage.py {name} is no command"
    app = get_commands()[name]
    parser = (load_command_class(app, name) if isinstance(app, str) else app).create_parser("manage.py", name)
    known = {option for action in parser._actions for option in action.option_strings}
    unknown = [word for word in options if word.startswith("--") and word.split("=")[0] not in known]
    return f"manage.py {name} has no {unknown[0]}" if unknown else None


@pytest.mark.parametrize("page", PAGES, ids=short)
def test_every_command_shown_exists(page):
    faults = [fault(words) for words in commands(page.read_text(encoding="utf-8")) if words]
    assert [each for each in faults if each] == []


@pytest.mark.parametrize(
    "command", ["frobnicate", ".venv/bin/python manage.py serv", ".venv/bin/python manage.py demo --prot 1", ".ci/go"]
)
def test_a_wrong_command_is_seen(command):
    assert fault(command.split())


@pytest.mark.parametrize("page", PAGES, ids=short)
def test_settings_that_are_named_are_settings(page):
    named = set(re.findall(r"`?\b(GROWERS_[A-Z_]*[A-Z]|DATABASE_URL)\b", page.read_text(encoding="utf-8")))
    assert named <= kept_settings.asked


def test_the_parts_of_the_documentation_are_all_reached_from_the_readme():
    """Everything is two links from the README, or found in a folder that it names."""
    reached, new = set(), {ROOT / "README.md"}
    while new:
        page = new.pop()
        reached.add(page)
        for link in LINK.findall(without_code(page.read_text(encoding="utf-8"))):
            path = (page.parent / link.partition("#")[0]).resolve()
            found = set(path.rglob("*.md")) if path.name == "decisions" else {path} & set(PAGES)
            new |= found - reached
    assert set(PAGES) - reached == set()


BOLD = re.compile(r"\*\*([^*\n]+)\*\*")
# Bold for another reason than that it stands on a page.
OWN_WORDS = {"5 ft", "datetime", "temp_c", "rh_pct", "A bundle's sheet", "A variety's sheet"}


def words_on_pages():
    """All that templates and Python say, without what makes them differ in form only."""
    files = [path for path in (ROOT / "growers").rglob("*") if path.suffix in (".html", ".py")]
    return " ".join(path.read_text(encoding="utf-8") for path in files).replace("\\n", " ")


@pytest.mark.parametrize(
    "page", [*sorted((ROOT / "docs/how-to").glob("*.md")), *sorted((ROOT / "docs/tutorial").glob("*.md"))], ids=short
)
def test_what_is_to_be_pressed_is_on_the_pages(page):
    said = set(BOLD.findall(without_code(page.read_text(encoding="utf-8")))) - OWN_WORDS
    on_pages = words_on_pages()
    assert sorted(each for each in said if each.rstrip(".") not in on_pages) == []

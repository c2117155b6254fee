from pathlib import Path

from django.contrib.staticfiles import finders
from django.contrib.staticfiles.storage import staticfiles_storage

SCRIPT = "growers/plotly.min.js"


def test_the_script_that_plotly_ships_is_offered_alone():
    found = Path(finders.find(SCRIPT))
    assert found.parts[-3:] == ("plotly", "package_data", "plotly.min.js")
    assert found.stat().st_size > 1_000_000
    finder = finders.get_finder("growers.furniture.finders.PlotlyFinder")
    assert [(name, storage.prefix) for name, storage in finder.list([])] == [("plotly.min.js", "growers")]
    assert finder.find("growers/plotly.js") == []
    assert finder.find(SCRIPT, find_all=True) == [str(found)]


def test_a_file_not_collected_yet_keeps_its_plain_name():
    assert staticfiles_storage.url("growers/not-collected.css") == "/static/growers/not-collected.css"


def test_a_collected_file_is_named_by_its_content(monkeypatch):
    monkeypatch.setitem(staticfiles_storage.hashed_files, "growers/withy.css", "growers/withy.0123456789ab.css")
    assert staticfiles_storage.url("growers/withy.css") == "/static/growers/withy.0123456789ab.css"

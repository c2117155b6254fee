"""What plotly.js wants of a page under our content security policy, held against the one that is installed."""

import re
from pathlib import Path

from django.conf import settings
from django.contrib.staticfiles import finders

HEAD = Path(settings.BASE_DIR, "growers/templates/_parts/chart_head.html").read_text()


def test_every_style_that_plotly_would_put_into_the_page_is_seen_to():
    script = Path(finders.find("growers/plotly.min.js")).read_text()
    known = re.findall(r'getElementById\("([0-9a-f]{40,})"\)', script)
    assert known
    assert all(f'id="{name}"' in HEAD for name in known)
    # One more place makes a style element: the one that gives way to our own style sheet.
    assert script.count('createElement("style")') == len(known) + 1
    assert ".no-inline-styles" in script


def test_the_script_is_loaded_after_the_page():
    assert HEAD.count("<script") == HEAD.count("defer></script>")

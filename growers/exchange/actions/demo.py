"""The invented book."""

import tomllib
from pathlib import Path

from django.conf import settings
from django.db import transaction

from growers.drying import actions as drying
from growers.people import actions as people
from growers.people.models import Holding, User

from .story import Story

STORY = Path(settings.BASE_DIR) / "fixtures" / "demo"


@transaction.atomic
def load_demo(today):
    """Make the invented book if it is not there yet. Returns the sign-in: name and password."""
    about = tomllib.loads((STORY / "holding.toml").read_text("utf-8"))
    sign_in = about["username"], about["password"]
    if Holding.objects.filter(slug=about["slug"]).exists():
        return sign_in
    holding = people.open_book(**about, invented=True)
    story = Story(holding, User.objects.get(username=about["username"]), today)
    for chapter in sorted(STORY.glob("[0-9]*")):
        story.tell_file(chapter)
    drying.judge_stale(holding=holding, today=today)
    return sign_in

#!/usr/bin/env python3
import os
import sys
from pathlib import Path


def invented_book_only():
    """The demo never meets the real book: it takes nothing of the real one's surroundings."""
    for name in list(os.environ):
        if name == "DATABASE_URL" or name.startswith("GROWERS_"):
            del os.environ[name]
    os.environ["GROWERS_HOME"] = str(Path(__file__).resolve().parent / ".demo")
    # Plain http is safe here alone: the demo listens on 127.0.0.1 and nowhere else.
    os.environ["GROWERS_HTTPS"] = "off"


def main():
    if sys.argv[1:2] == ["demo"]:
        invented_book_only()
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "growers.settings")
    from django.core.management import execute_from_command_line

    execute_from_command_line(sys.argv)


if __name__ == "__main__":
    main()

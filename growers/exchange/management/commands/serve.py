from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from growers.exchange.management import server
from growers.people.models import User

NOT_YET = """Nobody is in this book yet. In a second window, from this folder:
  .venv/bin/python manage.py open_book --name "the holding's name" --user "your sign-in name"
"""


class Command(BaseCommand):
    help = "Serves the real book from .book/ (or GROWERS_HOME, DATABASE_URL) at GROWERS_LISTEN."

    def handle(self, *args, **options):
        if settings.HTTPS and not settings.PROXY:
            raise CommandError(
                "Pages go out by https only, and this server alone speaks plain http. Put a proxy that speaks "
                "https before it and name its address in GROWERS_PROXY (such as GROWERS_PROXY=127.0.0.1); or, for "
                "use on this machine alone, set GROWERS_HTTPS=off. docs/reference/settings.md says more."
            )
        host, port = settings.LISTEN
        self.stdout.write("Preparing the book …")
        self.stdout.flush()
        server.prepare()
        try:
            listening = server.listening(host=host.strip("[]"), port=port)
        except OSError as trouble:
            raise CommandError(f"Can't listen at {host}:{port}: {trouble.strerror}.") from trouble
        self.say(host, port)
        listening.run()

    def say(self, host, port):
        if not User.objects.exists():
            self.stdout.write(NOT_YET)
        self.stdout.write(f"The book is served at http://{host}:{port}/ - stop with Ctrl-C.")
        self.stdout.flush()

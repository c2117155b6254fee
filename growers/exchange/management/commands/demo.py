from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from growers.exchange import actions
from growers.exchange.management import server

HOST = "127.0.0.1"
WELCOME = """Everything in this book is invented: the people, the holding, the varieties and every figure.
Open     http://{host}:{port}/
Sign in  {username}
Password {password}
The book stays in {home} until `demo --fresh` begins a new one. Stop with Ctrl-C.
"""


class Command(BaseCommand):
    help = "Serves an invented book on this machine alone, from .demo/. It never touches the real book."

    def add_arguments(self, parser):
        parser.add_argument("--port", type=int, default=8000, help="the first port to try")
        parser.add_argument("--fresh", action="store_true", help="begin a new invented book and keep the old one")
        parser.add_argument("--no-serve", action="store_true", help="make the book and stop")

    def handle(self, *args, port, fresh, no_serve, **options):
        if settings.HOME.name != ".demo":
            raise CommandError("The demo is started as `manage.py demo`, and by nothing else.")
        if fresh:
            self.set_aside()
        self.stdout.write("Preparing the book …")
        self.stdout.flush()
        server.prepare()
        sign_in = actions.load_demo(timezone.localdate())
        if no_serve:
            self.stdout.write(f"The book is in {settings.HOME}.")
            return
        door = self.open_door(port)
        listening = server.listening(sockets=[door])
        self.say(door.getsockname()[1], *sign_in)
        listening.run()

    def set_aside(self):
        """The old book keeps its folder, under the moment at which it was set aside."""
        if settings.HOME.exists():
            kept = settings.HOME.with_name(f".demo-{timezone.now():%Y-%m-%d-%H%M%S}")
            settings.HOME.rename(kept)
            self.stdout.write(f"The old book is kept in {kept}.")

    def open_door(self, port):
        try:
            return server.first_free(HOST, port)
        except (OSError, OverflowError) as trouble:
            raise CommandError(f"No port from {port} on is free on {HOST}.") from trouble

    def say(self, port, username, password):
        """Said once the socket listens, so that it is already true."""
        self.stdout.write(
            WELCOME.format(host=HOST, port=port, username=username, password=password, home=settings.HOME)
        )
        self.stdout.flush()

import getpass

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError

from growers.exchange.management import server
from growers.furniture.refusals import Refusal
from growers.people import actions
from growers.people.models import User


class Command(BaseCommand):
    help = "Begins a holding's book, with its first person. Asks for the password."

    def add_arguments(self, parser):
        parser.add_argument("--name", required=True, help="the holding's name, as it stands on its pages")
        parser.add_argument("--user", required=True, help="the sign-in name of its first person")
        parser.add_argument("--slug", default="", help="its part of the address; made from the name when left out")
        parser.add_argument("--zone", default="Europe/London", help="its time zone, such as Europe/London")
        parser.add_argument("--hemisphere", choices=["N", "S"], default="N")

    def handle(self, *args, name, user, slug, zone, hemisphere, **options):
        server.prepare_book()  # often the first command of all
        if User.objects.filter(username=user).exists():
            password = None  # they have one already, and it stays
            self.stdout.write(f"{user} can sign in already and joins this book too, with the same password.")
        else:
            password = self.ask_password(user)
        try:
            holding = actions.open_book(
                name=name, username=user, password=password, slug=slug, zone=zone, hemisphere=hemisphere
            )
        except Refusal as refusal:
            raise CommandError(str(refusal)) from refusal
        self.stdout.write(f"{holding.name} is open at /{holding.slug}/, and {user} can sign in.")

    def ask_password(self, username):
        password = getpass.getpass("Password: ")
        if password != getpass.getpass("Once more: "):
            raise CommandError("The two differ; nothing was made.")
        try:
            validate_password(password, User(username=username))
        except ValidationError as trouble:
            raise CommandError(" ".join(trouble.messages)) from trouble
        return password

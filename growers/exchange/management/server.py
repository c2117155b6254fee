import os
import socket

from django.conf import settings
from django.core.management import call_command
from django.core.wsgi import get_wsgi_application
from waitress.server import create_server

LAST_PORT = 65535


def prepare_book():
    """Bring the book up to this version; the first time, make it."""
    settings.HOME.mkdir(mode=0o700, parents=True, exist_ok=True)
    call_command("migrate", interactive=False, verbosity=0)


def prepare():
    """Bring the book and its static files up to this version."""
    prepare_book()
    call_command("collectstatic", interactive=False, verbosity=0)


def first_free(host, port):
    """A listening socket on the first free port from the one given; OSError when there is none."""
    while True:
        door = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name == "posix":  # elsewhere this would let two servers share a port
            door.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            door.bind((host, port))
            door.listen()
            return door
        except OSError:
            door.close()
            if port == LAST_PORT:
                raise
            port += 1


def listening(**where):
    """A server that listens, at host= and port= or on sockets=, and answers once it is run."""
    if settings.PROXY:
        # Who asked, and whether by https, is believed of the proxy alone.
        where |= {
            "trusted_proxy": settings.PROXY,
            "trusted_proxy_headers": {"x-forwarded-for", "x-forwarded-proto"},
        }
    return create_server(get_wsgi_application(), threads=8, ident="", **where)

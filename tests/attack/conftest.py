import pytest

from growers.people.models import Membership
from tests.attack.house import entries
from tests.conftest import OverHttps
from tests.ledger.kept import book, books, written_books

__all__ = ["book", "books", "written_books"]


@pytest.fixture
def mine(books):
    """Hallow Carr, with every kind of entry in it."""
    return books.mine.book.holding


@pytest.fixture
def theirs(books):
    """Nether Sallow, with every kind of entry in it."""
    return books.theirs.book.holding


@pytest.fixture
def wren(books):
    return books.mine.book.by


@pytest.fixture
def ida(books):
    return books.theirs.book.by


@pytest.fixture
def everything(mine):
    """The entries of Hallow Carr by kind."""
    return entries(mine)


@pytest.fixture
def hers(client, wren):
    """Wren's browser; an error of ours comes to it as a page, as in real use."""
    client.force_login(wren)
    client.raise_request_exception = False
    return client


@pytest.fixture
def reader(mine, ida):
    """Ida's browser, who may look into Hallow Carr but not write in it."""
    Membership.objects.create(holding=mine, user=ida, role=Membership.Role.READER)
    browser = OverHttps()
    browser.force_login(ida)
    return browser

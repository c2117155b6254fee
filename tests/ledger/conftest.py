import pytest

from tests.ledger.kept import book, books, written_books

__all__ = ["book", "books", "written_books"]

pytest.register_assert_rewrite("tests.ledger.invariants")

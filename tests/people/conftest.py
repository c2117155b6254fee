from tests.ledger.kept import book, books, written_books

__all__ = ["book", "books", "written_books"]

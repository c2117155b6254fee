"""Pure rules of the ledger: shares in whole parts, and tag codes with their check digits."""

WHOLE = 1_000_000_000
"""A whole bundle, in parts in a thousand million (share_ppb)."""


def parts(fraction: float, of: int = WHOLE) -> int:
    """A fraction of something as whole parts, never more than the thing itself."""
    return max(0, min(of, round(fraction * of)))


def divide(whole: int, weights: list[float]) -> list[int]:
    """Divide whole parts by weight, so that the pieces add up to the whole exactly.

    Largest remainders get the odd parts; equal remainders go to the earlier piece.
    """
    total = sum(weights)
    exact = [whole * weight / total for weight in weights]
    pieces = [int(piece) for piece in exact]
    by_remainder = sorted(range(len(weights)), key=lambda i: (pieces[i] - exact[i], i))
    for i in by_remainder[: whole - sum(pieces)]:
        pieces[i] += 1
    return pieces


def with_check_digits(number: int) -> str:
    """Five digits and their two check digits (ISO 7064, MOD 97-10), seven figures in all."""
    return f"{number:05d}{98 - number * 100 % 97:02d}"


def is_tag(code: str) -> bool:
    return len(code) == 7 and code.isascii() and code.isdigit() and int(code) % 97 == 1


def shown(code: str) -> str:
    """As it stands on the tag: 482 17 06."""
    return f"{code[:3]} {code[3:5]} {code[5:]}"


def read_tag(text: str) -> str:
    """The figures of a code however it was typed or read aloud."""
    return "".join(str(int(c)) for c in text if c.isdecimal())

"""Bundles by the codes on their tags."""

from ..models import Bundle
from ..rules import is_tag, read_tag, with_check_digits


def by_tag(holding, text):
    """The bundle whose code this is, however typed; None if no such bundle."""
    code = read_tag(text)
    return Bundle.objects.of(holding).filter(tag=code).first() if is_tag(code) else None


def near_tags(holding, text):
    """Bundles whose code differs from a mistyped one in one figure, more or less, or by two neighbours changed over."""
    code = read_tag(text)
    near = {code[:i] + figure + code[i + 1 :] for i in range(len(code)) for figure in "0123456789"}
    near |= {code[:i] + code[i + 1] + code[i] + code[i + 2 :] for i in range(len(code) - 1)}
    near |= {code[:i] + figure + code[i:] for i in range(len(code) + 1) for figure in "0123456789"}
    near |= {code[:i] + code[i + 1 :] for i in range(len(code))}
    if len(code) == 5:
        near.add(with_check_digits(int(code)))
    near = {other for other in near if is_tag(other)}
    return list(Bundle.objects.of(holding).filter(tag__in=near - {code}).order_by("tag")[:5])

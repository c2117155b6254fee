"""Bundles by the codes on their tags."""

from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal

from ..models import Bundle
from ..rules import is_tag, read_tag, with_check_digits


def by_tag(holding, text):
    """The bundle whose code this is, however typed; None if no such bundle."""
    code = read_tag(text)
    return Bundle.objects.of(holding).filter(tag=code).first() if is_tag(code) else None


def tagged(holding, text):
    """As `by_tag`, with a Refusal that names those near where there is no such bundle."""
    if bundle := by_tag(holding, text):
        return bundle
    if not text.strip():
        raise Refusal(_("Type the figures on its tag."))
    near = ", ".join(bundle.tag_shown for bundle in near_tags(holding, text))
    hint = _("Did you mean %(near)s?") % {"near": near} if near else _("Look at its figures.")
    raise Refusal(_("No bundle has the tag “%(tag)s”. %(hint)s") % {"tag": text.strip()[:40], "hint": hint})


def near_tags(holding, text):
    """Bundles whose code differs from a mistyped one in one figure, more or less, or by two neighbours changed over."""
    code = read_tag(text)
    if not 5 <= len(code) <= 8:
        return []  # no one slip makes a tag of it
    near = {code[:i] + figure + code[i + 1 :] for i in range(len(code)) for figure in "0123456789"}
    near |= {code[:i] + code[i + 1] + code[i] + code[i + 2 :] for i in range(len(code) - 1)}
    near |= {code[:i] + figure + code[i:] for i in range(len(code) + 1) for figure in "0123456789"}
    near |= {code[:i] + code[i + 1 :] for i in range(len(code))}
    if len(code) == 5:
        near.add(with_check_digits(int(code)))
    near = {other for other in near if is_tag(other)}
    return list(Bundle.objects.of(holding).filter(tag__in=near - {code}).order_by("tag")[:5])

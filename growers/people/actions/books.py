"""Opening a book, who may write in it, and its settings."""

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction
from django.db.models import F
from django.utils.text import slugify
from django.utils.translation import gettext as _

from growers.furniture.refusals import Refusal

from ..models import Holding, Membership, User
from ..rules import tidy
from .writing import check_whole

RESERVED_SLUGS = {"sign-in", "sign-out", "t", "sheet", "static", "understand", "admin", "books", "style", "sw.js"}


@transaction.atomic
def open_book(*, name, username, password, slug="", zone="Europe/London", hemisphere="N", invented=False, **settings):
    """A new holding with its first person, who keeps the book."""
    slug = slug or slugify(name)[:40]
    if not slug or slug in RESERVED_SLUGS or Holding.objects.filter(slug=slug).exists():
        raise Refusal(_("“%(slug)s” can't be the book's address: choose another.") % {"slug": slug}, field="slug")
    settings.setdefault("winter_begins_month", 7 if hemisphere == "N" else 1)
    holding = Holding(slug=slug, name=tidy(name), zone=zone, hemisphere=hemisphere, invented=invented, **settings)
    check_whole(holding)
    holding.save()
    user = User.objects.filter(username=username).first()
    if user is None:
        user = User.objects.create_user(username=username, password=password)
    join(holding=holding, user=user, role=Membership.Role.KEEPER)
    return holding


def join(*, holding, user, role):
    membership, _made = Membership.objects.update_or_create(holding=holding, user=user, defaults={"role": role})
    return membership


@transaction.atomic
def let_in(*, holding, by, username, role, password=""):
    """Let a person into the book: one who signs in here already, or a new one with a first password."""
    user = User.objects.filter(username=username).first()
    if user is None:
        try:
            validate_password(password, User(username=username))
        except ValidationError as problem:
            raise Refusal(" ".join(problem.messages), field="password") from problem
        user = User.objects.create_user(username=username, password=password)
    elif Membership.objects.filter(holding=holding, user=user).exists():
        raise Refusal(_("%(name)s is in this book already.") % {"name": username}, field="username")
    elif password:
        raise Refusal(_("%(name)s has a password already: leave this empty.") % {"name": username}, field="password")
    return join(holding=holding, user=user, role=role)


@transaction.atomic
def change_role(*, holding, by, membership, role):
    """Change what a person may do here. Somebody always keeps the book."""
    keepers = Membership.objects.select_for_update().filter(holding=holding, role=Membership.Role.KEEPER)
    if role != Membership.Role.KEEPER and not [each for each in keepers if each.pk != membership.pk]:
        raise Refusal(_("Somebody must keep the book: let another keep it first."), field="role")
    membership.role = role
    membership.save(update_fields=["role"])
    return membership


@transaction.atomic
def change_settings(*, holding, by, **settings):
    """The holding's own settings; what was reckoned under the old ones is stale."""
    for name, value in settings.items():
        setattr(holding, name, value)
    check_whole(holding)
    holding.save(update_fields=list(settings))
    new_evidence(holding)
    return holding


def new_evidence(holding):
    """Everything reckoned for this holding is to be judged anew."""
    Holding.objects.filter(pk=holding.pk).update(evidence_no=F("evidence_no") + 1)

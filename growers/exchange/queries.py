from dataclasses import dataclass

from django.db import connection
from django.utils.translation import gettext as _

from growers.people.models import Holding
from growers.people.queries import kinds

from .rules import Rule, all_rules


@dataclass(frozen=True)
class Fault:
    """An entry of which a rule does not hold."""

    rule: Rule
    kind: str
    id: int
    uid: object
    holding: Holding

    def __str__(self):
        return _("%(book)s: %(kind)s no. %(id)d (%(uid)s) breaks a rule. %(rule)s") % {
            "book": self.holding,
            "kind": kinds()[self.kind]._meta.verbose_name,
            "id": self.id,
            "uid": self.uid,
            "rule": self.rule.sentence,
        }


def doctor(holding=None):
    """Every entry of which a rule of the book does not hold; of one holding, or of all. Changes nothing."""
    return [fault for rule in all_rules() for fault in faults(rule, holding)]


def faults(rule, holding=None):
    with connection.cursor() as cursor:
        cursor.execute(rule.sql)
        rows = sorted(set(cursor.fetchall()))
    holdings = {each.pk: each for each in Holding.objects.filter(pk__in={row[2] for row in rows})}
    return [
        Fault(rule, kind, pk, uid_of(kind, pk, holdings[holding_id]), holdings[holding_id])
        for kind, pk, holding_id in rows
        if holding is None or holding_id == holding.pk
    ]


def uid_of(kind, pk, holding):
    return kinds()[kind].objects.of(holding, struck_out=True).values_list("uid", flat=True).get(pk=pk)

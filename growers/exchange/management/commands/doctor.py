from django.core.management.base import BaseCommand, CommandError
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from growers.exchange import queries


class Command(BaseCommand):
    help = "Proves that the books hold together: shares, origins, days, holdings. Changes nothing."

    def handle(self, *args, **options):
        faults = queries.doctor()
        for fault in faults:
            self.stdout.write(str(fault))
        if faults:
            said = ngettext("%(n)d fault. Nothing was changed.", "%(n)d faults. Nothing was changed.", len(faults))
            raise CommandError(said % {"n": len(faults)})
        self.stdout.write(_("All %(n)d rules hold.") % {"n": len(queries.all_rules())})

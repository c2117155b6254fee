"""Finding sheets, and whether they stand open."""

from zoneinfo import ZoneInfo

from ..models import Sheet


def sheet_of(holding, *, variety=None, bundle=None):
    """The living sheet of a variety or a bundle, shared or withdrawn; None if there never was one."""
    return Sheet.objects.of(holding).filter(variety=variety, bundle=bundle).first()


def local_day(holding, now):
    return now.astimezone(ZoneInfo(holding.zone)).date()


def stands_open(sheet, *, now):
    return sheet is not None and sheet.is_open(local_day(sheet.holding, now))


def open_sheet(token, *, now):
    """The sheet behind a link or a tag, if it is shared now."""
    sheet = Sheet.behind(token)
    return sheet if stands_open(sheet, now=now) else None

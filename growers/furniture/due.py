from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True)
class Due:
    """Something that wants doing: what Today shows, gathered from every stage.

    `page` and `args` name the page that does it. `why` is a few words on how we know.
    `tag` of a bundle that it is about, if any.
    """

    kind: str
    sentence: str
    page: str
    args: tuple = ()
    when: date | datetime | None = None
    why: str = ""
    urgent: bool = False
    tag: str = ""

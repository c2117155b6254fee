"""How a test fills in a page as a person does: it opens it, types, and presses the button."""

import re
from html import unescape

from django.urls import reverse


class Pages:
    """The pages of one book, seen by one signed-in person."""

    def __init__(self, client, slug):
        self.client, self.slug = client, slug

    def address(self, name, /, *args):
        return reverse(name, args=[self.slug, *args])

    def open(self, name, /, *args, **query):
        page = self.client.get(self.address(name, *args), query)
        assert page.status_code == 200, f"{name}: {page.status_code}"
        return page

    def text(self, name, /, *args, **query):
        """What a reader sees of a page, as one line of words."""
        return words(self.open(name, *args, **query))

    def send(self, name, /, *args, to=None, **typed):
        """Open a page, fill in its form and send it; `to` is where it is sent, if not to itself."""
        there = standing(self.open(name, *args).context["form"])
        return self.client.post(to or self.address(name, *args), {**there, **typed})

    def keep(self, name, /, *args, **typed):
        """Send a form that is to be kept; the sentences in the way are shown if it is not."""
        answer = self.send(name, *args, **typed)
        assert answer.status_code == 302, f"{name}: {answer.status_code} {errors(answer)}"
        return answer

    def keep_though_asked(self, name, /, *args, asked, **typed):
        """Send a form that is asked about, see the question, and say yes, that is right."""
        page = self.send(name, *args, **typed)
        assert page.status_code == 422, f"{name}: {page.status_code}"
        assert asked in words(page)
        return self.keep(name, *args, **typed, sure=page.context["form"].sure)

    def refused(self, name, /, *args, **typed):
        """Send a form that is to be refused; returns the page as words."""
        answer = self.send(name, *args, **typed)
        assert answer.status_code == 422, f"{name}: {answer.status_code}"
        return words(answer)


def standing(form):
    """What stands in a form as it is opened, which a browser sends with what is typed."""
    there = {bound.html_name: bound.value() for bound in form}
    return {
        name: "on" if value is True else [str(each) for each in value] if isinstance(value, list) else str(value)
        for name, value in there.items()
        if value not in (None, "", False)
    }


def words(page):
    text = re.sub(r"<(script|style).*?</\1>", " ", page.content.decode(), flags=re.S)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", text)).split())


def errors(page):
    form = page.context and page.context.get("form")
    return dict(form.errors) | {"questions": form.questions} if form else words(page)[:2000]

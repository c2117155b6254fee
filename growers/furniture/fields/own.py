from django import forms


class OwnField(forms.Field):
    """What our fields share: they know the book they stand in, and say back what they understood."""

    kind = None
    holding = today = now = None

    def bind(self, *, holding, today, now):
        """The form lends the field its holding and clock; a form of its own copies its fields first."""
        self.holding, self.today, self.now = holding, today, now

    def echo(self, value):
        return "" if value in self.empty_values else str(value)

    def doubt(self, value):
        """A sentence questioning a value that can be read but is unlikely; nothing for any other."""

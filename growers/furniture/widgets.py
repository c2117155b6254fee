from django import forms


class Typed(forms.TextInput):
    """A line to type in; the script adds the unit keys and the number pad to it, so neither is ever a dead button."""

    def __init__(self, attrs=None, *, kind=None, keys=()):
        super().__init__(attrs={"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"} | (attrs or {}))
        self.kind = kind
        self.keys = keys

    def build_attrs(self, base_attrs, extra_attrs=None):
        return super().build_attrs(base_attrs, extra_attrs) | ({"data-kind": self.kind} if self.kind else {})


class NumberPad(Typed):
    """For plain numbers only: nothing on the letter keyboard is wanted."""

    def __init__(self, attrs=None, *, kind=None, keys=()):
        super().__init__(attrs={"inputmode": "decimal"} | (attrs or {}), kind=kind, keys=keys)


class TileSelect(forms.RadioSelect):
    """A short choice as big tiles, one of which is down."""

    template_name = "_parts/widgets/tiles.html"


class TileSelectMultiple(forms.CheckboxSelectMultiple):
    template_name = "_parts/widgets/tiles.html"


class TapSelect(forms.RadioSelect):
    """A short choice where the tap is the save: one submit button for each answer."""

    template_name = "_parts/widgets/taps.html"
    saves = True

    def create_option(self, name, value, *args, **kwargs):
        return super().create_option(name, value, *args, **kwargs) | {"tap": value not in ("", None)}

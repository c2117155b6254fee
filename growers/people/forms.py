from django import forms
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.validators import UnicodeUsernameValidator
from django.utils.dates import MONTHS
from django.utils.translation import gettext_lazy as _

from growers.furniture.fields import HumidityField, OwnField, PickField, TemperatureField
from growers.furniture.forms import BaseForm, Look

from .models import HEMISPHERES, UNITS_OF_LENGTH, UNITS_OF_MASS, UNITS_OF_TEMPERATURE, Membership


class SignInForm(Look, AuthenticationForm):
    username = forms.CharField(label=_("Name"), widget=forms.TextInput(attrs={"autocomplete": "username"}))
    password = forms.CharField(
        label=_("Password"), strip=False, widget=forms.PasswordInput(attrs={"autocomplete": "current-password"})
    )
    error_messages = AuthenticationForm.error_messages | {
        "invalid_login": _("That name and password don't go together."),
    }


class ReasonForm(BaseForm):
    reason = forms.CharField(
        label=_("Why"), max_length=300, help_text=_("A word or two: written on the wrong bundle, entered twice…")
    )
    with_what_stands_on_it = forms.BooleanField(label=_("Strike out all that stands on it as well"), required=False)


class PutBackForm(BaseForm):
    """Nothing to say: the button is all."""


class LetInForm(BaseForm):
    username = forms.CharField(label=_("Name to sign in with"), max_length=150, validators=[UnicodeUsernameValidator()])
    password = forms.CharField(
        label=_("First password"),
        required=False,
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        help_text=_("For somebody new. Who signs in here already keeps their own."),
    )
    role = PickField(label=_("What they may do"), choices=Membership.Role, initial=Membership.Role.HAND)


class RoleForm(BaseForm):
    role = PickField(label=_("What they may do"), choices=Membership.Role)


class LimitField(OwnField, forms.DecimalField):
    """Per cent of shrinking, kept as a fraction."""


class SettingsForm(BaseForm):
    name = forms.CharField(label=_("Name of the holding"), max_length=120)
    zone = forms.CharField(label=_("Time zone"), max_length=64, help_text=_("Such as Europe/London."))
    hemisphere = PickField(label=_("Half of the world"), choices=HEMISPHERES)
    winter_begins_month = forms.TypedChoiceField(
        label=_("A winter begins in"),
        coerce=int,
        choices=lambda: list(MONTHS.items()),
        help_text=_("Rods cut from this month on belong to the new winter. Begun in January, a winter has one year."),
    )
    mass_unit = PickField(label=_("Weights in"), choices=UNITS_OF_MASS)
    length_unit = PickField(label=_("Lengths in"), choices=UNITS_OF_LENGTH)
    temperature_unit = PickField(label=_("Temperatures in"), choices=UNITS_OF_TEMPERATURE)
    currency = forms.RegexField(
        label=_("Currency"),
        regex=r"^[A-Z]{3}$",
        error_messages={"invalid": _("Three capital letters, such as GBP or EUR.")},
    )
    indoor_temperature_c = TemperatureField(
        label=_("Air where baskets live: how warm"), words=False, help_text=_("Usual: 20 °C.")
    )
    indoor_humidity = HumidityField(label=_("… and how damp"), help_text=_("Usual: 50 %."))
    shrink_limit = LimitField(
        label=_("Shrinking still to come that a tight basket bears, per cent"),
        min_value=0.1,
        max_value=8.6,
        decimal_places=2,
        help_text=_("Usual: 2. Your own baskets tell whether it is right."),
    )

    def said(self):
        said = super().said()
        said["indoor_temperature_c"] = said["indoor_temperature_c"].value
        said["indoor_humidity"] = said["indoor_humidity"].value
        said["shrink_limit"] = float(said["shrink_limit"]) / 100
        return said

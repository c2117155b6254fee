from django.db import models
from django.utils.translation import gettext_lazy as _


class State(models.TextChoices):
    """What rods are sold as, by what is said of them."""

    GREEN = "green", _("green")
    SEMI_DRY = "semi_dry", _("semi-dry")
    DRY = "dry", _("dry")

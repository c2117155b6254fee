from importlib import import_module

from django.apps import AppConfig
from django.utils.module_loading import module_has_submodule


class Stage(AppConfig):
    """A stage of the house. Its actions are loaded at start, so that what they register is known at once."""

    def ready(self):
        if module_has_submodule(self.module, "actions"):
            import_module(f"{self.name}.actions")

from importlib.util import find_spec
from pathlib import Path

from django.contrib.staticfiles.finders import BaseFinder
from django.core.files.storage import FileSystemStorage

NAME = "plotly.min.js"


class OneFile(FileSystemStorage):
    prefix = "growers"


class PlotlyFinder(BaseFinder):
    """Offers plotly's own script as growers/plotly.min.js, and nothing else of the package, without importing it."""

    def __init__(self, app_names=None, *args, **kwargs):
        # find_spec of the package itself runs none of its code
        spec = find_spec("plotly")
        self.storage = OneFile(location=Path(spec.origin).parent / "package_data")
        super().__init__(*args, **kwargs)

    def find(self, path, find_all=False):
        found = self.storage.path(NAME) if path == f"{OneFile.prefix}/{NAME}" else None
        return ([found] if found else []) if find_all else (found or [])

    def list(self, ignore_patterns):
        yield NAME, self.storage

    def check(self, **kwargs):
        return []

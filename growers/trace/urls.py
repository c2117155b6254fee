from django.urls import path

from .bundle_story import bundle
from .cut_story import cut
from .tag_address import tag

app_name = "trace"

urlpatterns = [
    path("tag/", tag, name="tag"),
    path("bundle/<uuid:uid>/", bundle, name="bundle"),
    path("cut/<uuid:uid>/", cut, name="cut"),
]

from django.urls import path

from .bundle_story import bundle
from .cut_story import cut
from .tag_address import tag
from .tags import tags
from .winter_flow import latest_winter, winter_flow
from .yields import yields

app_name = "trace"

urlpatterns = [
    path("tag/", tag, name="tag"),
    path("tags/", tags, name="tags"),
    path("bundle/<uuid:uid>/", bundle, name="bundle"),
    path("cut/<uuid:uid>/", cut, name="cut"),
    path("winter/", latest_winter, name="latest_winter"),
    path("winter/<int:year>/", winter_flow, name="winter_flow"),
    path("yields/", yields, name="yields"),
]

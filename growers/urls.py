from django.conf import settings
from django.urls import include, path

STAGES_WITH_PAGES = ("beds", "harvest", "bundles", "drying", "stock", "soaking", "baskets", "customers", "trace")

# A stage's pages within a book are its `urls`; those for anybody, with no book in the address, its `open_urls`.
urlpatterns = [
    path("", include("growers.people.urls")),
    path("t/", include("growers.trace.open_urls")),
    path("sheet/", include("growers.customers.open_urls")),
    path("<slug:holding>/", include("growers.today.urls")),
    *(path(f"<slug:holding>/{stage}/", include(f"growers.{stage}.urls")) for stage in STAGES_WITH_PAGES),
]

if settings.ADMIN:
    from django.contrib import admin

    urlpatterns.append(path("admin/", admin.site.urls))

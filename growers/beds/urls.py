from django.urls import path

from . import views

app_name = "beds"
urlpatterns = [
    path("", views.beds, name="beds"),
    path("add/", views.add_bed, name="add_bed"),
    path("bed/<uuid:uid>/", views.bed, name="bed"),
    path("bed/<uuid:uid>/plant/", views.plant, name="plant"),
    path("planting/<uuid:uid>/", views.planting, name="planting"),
    path("planting/<uuid:uid>/grub-out/", views.grub_out, name="grub_out"),
    path("planting/<uuid:uid>/gap-up/", views.gap_up, name="gap_up"),
    path("planting/<uuid:uid>/seen/", views.note_health, name="note_health"),
    path("varieties/", views.varieties, name="varieties"),
    path("varieties/add/", views.add_variety, name="add_variety"),
    path("variety/<uuid:uid>/", views.variety, name="variety"),
    *(
        path(f"{kind}/<uuid:uid>/correct/", views.correct, {"kind": kind}, name=f"correct_{kind}")
        for kind in views.CORRECTIONS
    ),
]

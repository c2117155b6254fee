from django.urls import path

from . import views

app_name = "harvest"
urlpatterns = [
    path("", views.winter, name="winter"),
    path("planting/<uuid:uid>/", views.planting, name="planting"),
    path("planting/<uuid:uid>/cut/", views.cut, name="cut_day"),
    path("planting/<uuid:uid>/cut/today/", views.cut_today, name="cut_today"),
    path("cut/<uuid:uid>/", views.cut_page, name="cut"),
    path("cut/<uuid:uid>/green-out/", views.green_out, name="green_out"),
    path("lengths/", views.lengths, name="lengths"),
    path("lengths/usual/", views.usual_lengths, name="usual_lengths"),
    *(
        path(f"{kind}/<uuid:uid>/correct/", views.correct, {"kind": kind}, name=f"correct_{kind}")
        for kind in views.CORRECTIONS
    ),
]

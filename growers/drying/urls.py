from django.urls import path

from . import views

app_name = "drying"
urlpatterns = [
    path("", views.drying, name="drying"),
    path("weigh/", views.weigh_by_tag, name="weigh_by_tag"),
    path("weighings/", views.weighings, name="weighings"),
    path("tests/", views.tests, name="tests"),
    path("bundle/<uuid:uid>/", views.answer, name="answer"),
    path("bundle/<uuid:uid>/weigh/", views.weigh, name="weigh"),
    path("store/<uuid:uid>/", views.store, name="store"),
    path("store/<uuid:uid>/air/", views.air, name="air"),
    path("store/<uuid:uid>/file/", views.air_file, name="air_file"),
    path("store/<uuid:uid>/airs/", views.airs, name="airs"),
    path("<slug:what>/<uuid:uid>/oven/", views.oven, name="oven"),
    path("<slug:what>/<uuid:uid>/meter/", views.meter, name="meter"),
    path("<slug:what>/<uuid:uid>/word/", views.word, name="word"),
    *(
        path(f"{kind}/<uuid:uid>/correct/", views.correct, {"kind": kind}, name=f"correct_{kind}")
        for kind in views.CORRECTIONS
    ),
]

from django.urls import path

from . import views

app_name = "baskets"
urlpatterns = [
    path("", views.baskets, name="baskets"),
    path("add/", views.add, name="add"),
    path("basket/<uuid:uid>/", views.basket, name="basket"),
    path("basket/<uuid:uid>/use/", views.use, name="use"),
    path("basket/<uuid:uid>/use-unsoaked/", views.use_unsoaked, name="use_unsoaked"),
    path("basket/<uuid:uid>/tight/", views.tight, name="tight"),
    path("batch/<uuid:uid>/use/", views.use_batch, name="use_batch"),
    path("patterns/", views.patterns, name="patterns"),
    path("patterns/add/", views.add_pattern, name="add_pattern"),
    path("patterns/<uuid:uid>/", views.pattern, name="pattern"),
    path("patterns/<uuid:uid>/add-part/", views.add_part, name="add_part"),
    *(
        path(f"{kind}/<uuid:uid>/correct/", views.correct, {"kind": kind}, name=f"correct_{kind}")
        for kind in views.CORRECTIONS
    ),
]

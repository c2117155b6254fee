from django.urls import path

from . import views

app_name = "bundles"
urlpatterns = [
    path("", views.bundles, name="bundles"),
    path("bench/", views.bench, name="bench"),
    path("bench/<uuid:uid>/", views.bench_cut, name="bench_cut"),
    path("bench/<uuid:uid>/finish/", views.finish, name="finish"),
    path("buy-in/", views.buy_in, name="buy_in"),
    path("find/", views.find_untagged, name="find_untagged"),
    path("find/<uuid:uid>/settle/", views.settle, name="settle"),
    path("bundle/<uuid:uid>/other-cut/", views.other_cut, name="other_cut"),
    path("bundle/<uuid:uid>/tell-tale/", views.telltale, name="telltale"),
    path("bundle/<uuid:uid>/leave-stack/", views.leave, name="leave_stack"),
    path("places/", views.places, name="places"),
    path("places/add/", views.add_place, name="add_place"),
    path("place/<uuid:uid>/", views.place, name="place"),
    path("move/", views.move, name="move"),
    path("stacks/", views.stacks, name="stacks"),
    path("stacks/up/", views.stack_up, name="stack_up"),
    path("stack/<uuid:uid>/", views.stack, name="stack"),
    *(
        path(f"{kind}/<uuid:uid>/correct/", views.correct, {"kind": kind}, name=f"correct_{kind}")
        for kind in views.CORRECTIONS
    ),
]

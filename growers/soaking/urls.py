from django.urls import path

from . import views

app_name = "soaking"
urlpatterns = [
    path("", views.tank, name="tank"),
    path("tanks/", views.tanks, name="tanks"),
    path("tanks/add/", views.add_tank, name="add_tank"),
    path("tanks/<uuid:uid>/water/", views.water, name="water"),
    path("ready-by/", views.ready_by, name="ready_by"),
    path("put-in/", views.put_in_by_tag, name="put_in_by_tag"),
    path("put-in/<uuid:uid>/", views.put_in, name="put_in"),
    path("whole-soak/<uuid:uid>/", views.whole_soak, name="whole_soak"),
    path("batch/<uuid:uid>/", views.batch, name="batch"),
    path("batch/<uuid:uid>/check/", views.check, name="check"),
    path("batch/<uuid:uid>/lift/", views.lift, name="lift"),
    path("batch/<uuid:uid>/dry-again/", views.dry_again, name="dry_again"),
    path("batch/<uuid:uid>/spoil/", views.spoil, name="spoil"),
    path("lift/<uuid:uid>/wrap/", views.wrap, name="wrap"),
    path("lift/<uuid:uid>/bench/", views.bench, name="bench"),
    path("lift/<uuid:uid>/steam/", views.steam, name="steam"),
    path("lift/<uuid:uid>/damp-again/", views.redamp, name="redamp"),
    path("lift/<uuid:uid>/past-it/", views.gone_over, name="gone_over"),
    path("wrapped/<uuid:uid>/unwrap/", views.unwrap, name="unwrap"),
    path("variety/<uuid:uid>/", views.variety, name="variety"),
    *(
        path(f"{kind}/<uuid:uid>/correct/", views.correct, {"kind": kind}, name=f"correct_{kind}")
        for kind in views.CORRECTIONS
    ),
]

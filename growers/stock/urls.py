from django.urls import path

from . import views

app_name = "stock"

urlpatterns = [
    path("", views.shed, name="shed"),
    path("scale/", views.scale, name="scale"),
    path("taking/<uuid:uid>/correct/", views.correct_taking, name="correct_taking"),
    path("count/<uuid:uid>/correct/", views.correct_count, name="correct_count"),
    path("promise/<uuid:uid>/correct/", views.correct_promise, name="correct_promise"),
    path("promise/<uuid:uid>/release/", views.release, name="release"),
    path("<uuid:uid>/take-out/", views.take_out, name="take_out"),
    path("<uuid:uid>/gone/", views.gone, name="gone"),
    path("<uuid:uid>/count/", views.count, name="count"),
    path("<uuid:uid>/promise/", views.promise, name="promise"),
    path("<uuid:uid>/split/", views.split, name="split"),
    path("<uuid:uid>/merge/", views.merge, name="merge"),
    path("<uuid:uid>/regrade/", views.regrade, name="regrade"),
    path("<uuid:uid>/make-into/", views.make_into, name="make_into"),
]

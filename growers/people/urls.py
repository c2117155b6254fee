from django.urls import include, path

from . import views

app_name = "people"

book = [
    path("understand/", views.understand, name="understand"),
    path("settings/", views.settings, name="settings"),
    path("hands/", views.hands, name="hands"),
    path("hands/let-in/", views.let_in, name="let_in"),
    path("hands/<int:pk>/", views.role, name="role"),
    path("struck-out/", views.struck_out, name="struck_out"),
    path("record/<slug:kind>/<uuid:uid>/", views.record, name="record"),
    path("record/<slug:kind>/<uuid:uid>/strike-out/", views.strike_out, name="strike_out"),
    path("record/<slug:kind>/<uuid:uid>/put-back/", views.put_back, name="put_back"),
    path("record/<slug:kind>/<str:uids>/take-back/", views.take_back, name="take_back"),
]

urlpatterns = [
    path("", views.books, name="books"),
    path("sign-in/", views.sign_in, name="sign_in"),
    path("sign-out/", views.sign_out, name="sign_out"),
    path("<slug:holding>/", include(book)),
]

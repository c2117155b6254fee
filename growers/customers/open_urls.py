from django.urls import path

from . import views

urlpatterns = [path("<uuid:token>/", views.sheet, name="sheet")]

from django.urls import path

from .tag_address import tag_address

urlpatterns = [path("<uuid:token>/", tag_address, name="tag")]

from django.urls import path

from . import views

app_name = "customers"

urlpatterns = [
    path("", views.customers, name="customers"),
    path("add/", views.add_customer, name="add_customer"),
    path("customer/<uuid:uid>/", views.customer, name="customer"),
    path("customer/<uuid:uid>/correct/", views.correct_customer, name="correct_customer"),
    path("bundle/<uuid:uid>/sell/", views.sell, name="sell"),
    path("sale/<uuid:uid>/", views.sale, name="sale"),
    path("sale/<uuid:uid>/correct/", views.correct_sale, name="correct_sale"),
    path("sale/<uuid:uid>/more/", views.more, name="more"),
    path("sale/<uuid:sale_uid>/more/<uuid:uid>/", views.sell_more, name="sell_more"),
    path("saleline/<uuid:uid>/correct/", views.correct_sale_line, name="correct_saleline"),
    path("variety/<uuid:uid>/sheet/", views.variety_sheet, name="variety_sheet"),
    path("bundle/<uuid:uid>/sheet/", views.bundle_sheet, name="bundle_sheet"),
    path("sheet/<uuid:uid>/withdraw/", views.withdraw, name="withdraw"),
]

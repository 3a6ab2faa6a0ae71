"""The addresses of sealed figures: a crew's own sheets begin with ``sealed/``."""

from django.urls import path

from setday.web.sealed import views_crew, views_lay, views_odds, views_offers, views_opened

app_name = "sealed"

urlpatterns = [
    path("sealed/", views_crew.mine, name="mine"),
    path("sealed/<int:number>/", views_crew.sheet, name="try"),
    path("sealed/<int:number>/lay/", views_lay.sheet, name="lay"),
    path("houses/<slug:key>/sealed/", views_offers.offers, name="offers"),
    path("houses/<slug:key>/sealed/<int:number>/", views_opened.offer, name="offer"),
    path("houses/<slug:key>/sealed/<int:number>/open/", views_opened.open_up, name="open"),
    path("houses/<slug:key>/sealed/<int:number>/mark/", views_opened.mark, name="mark"),
    path("classes/<slug:key>/slips/", views_odds.odds, name="odds"),
]

"""The addresses of this group of screens."""

from django.urls import path

from setday.web.buying import views_list, views_prices, views_stock

app_name = "buying"

urlpatterns = [
    path("prices/", views_prices.prices, name="prices"),
    path("prices/download/", views_prices.download, name="prices-download"),
    path("stock/", views_stock.stock, name="stock"),
    path("stock/download/", views_stock.download, name="stock-download"),
    path("houses/<slug:key>/buying/", views_list.buying_list, name="list"),
    path("houses/<slug:key>/buying/lines/<path:item>/", views_list.line, name="line"),
    path("houses/<slug:key>/buying/list.<str:kind>", views_list.as_file, name="file"),
]

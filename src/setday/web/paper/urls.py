"""The addresses of this group of screens."""

from django.urls import path

from setday.web.paper import views

app_name = "paper"

urlpatterns = [
    path("houses/<slug:key>/paper/", views.papers, name="list"),
    path("houses/<slug:key>/paper/<slug:name>.pdf", views.pdf, name="pdf"),
]

"""The addresses of this group of screens."""

from django.urls import path

from setday.web.workings import views

app_name = "workings"

urlpatterns = [
    path("houses/<slug:key>/workings/", views.workings, name="list"),
    path("houses/<slug:key>/workings/<path:working_key>/", views.working, name="one"),
]

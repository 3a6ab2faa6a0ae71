"""The addresses of this group of screens."""

from django.urls import path

from setday.web.photos import views

app_name = "photos"

urlpatterns = [path("photos/<uuid:key>.jpg", views.one, name="one")]

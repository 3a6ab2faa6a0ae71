"""The addresses of this group of screens."""

from django.urls import path

from setday.web.desk import views

app_name = "desk"

urlpatterns = [
    path("begin/", views.begin, name="begin"),
    path("sign-in/", views.sign_in, name="sign-in"),
    path("sign-out/", views.sign_out, name="sign-out"),
    path("language/", views.language, name="language"),
    path("help/", views.help_sheet, name="help"),
]

from django.apps import AppConfig


class Photos(AppConfig):
    name = "setday.web.photos"
    label = "photos"

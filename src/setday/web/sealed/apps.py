from django.apps import AppConfig


class Sealed(AppConfig):
    name = "setday.web.sealed"
    label = "sealed"

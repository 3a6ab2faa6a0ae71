from django.apps import AppConfig


class Buying(AppConfig):
    name = "setday.web.buying"
    label = "buying"

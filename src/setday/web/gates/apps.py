from django.apps import AppConfig


class Gates(AppConfig):
    name = "setday.web.gates"
    label = "gates"

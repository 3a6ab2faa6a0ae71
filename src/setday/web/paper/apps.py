from django.apps import AppConfig


class Paper(AppConfig):
    name = "setday.web.paper"
    label = "paper"

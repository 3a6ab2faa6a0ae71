from django.apps import AppConfig


class Switching(AppConfig):
    name = "setday.web.switching"
    label = "switching"

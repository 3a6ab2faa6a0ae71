from django.apps import AppConfig


class Cable(AppConfig):
    name = "setday.web.cable"
    label = "cable"

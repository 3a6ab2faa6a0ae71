from django.apps import AppConfig


class Hunts(AppConfig):
    name = "setday.web.hunts"
    label = "hunts"

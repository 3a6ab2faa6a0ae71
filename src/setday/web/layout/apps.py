from django.apps import AppConfig


class Layout(AppConfig):
    name = "setday.web.layout"
    label = "layout"

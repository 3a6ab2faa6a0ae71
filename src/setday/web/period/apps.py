from django.apps import AppConfig


class Period(AppConfig):
    name = "setday.web.period"
    label = "period"

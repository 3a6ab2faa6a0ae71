from django.apps import AppConfig


class Keeping(AppConfig):
    name = "setday.web.keeping"
    label = "keeping"

    def ready(self) -> None:
        from setday.web import checks

        checks.register_all()

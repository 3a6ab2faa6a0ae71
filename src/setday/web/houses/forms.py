"""What is typed about a house."""

from django.utils.translation import gettext_lazy

from setday.web.file_form import VersionForm, typed_text

__all__ = ["HouseFileForm"]


class HouseFileForm(VersionForm):
    """A house file, picked or typed."""

    text = typed_text(label=gettext_lazy("The house file"), rows=24)

    usual_name = "house.yaml"
    too_large = gettext_lazy(
        "%(name)s is %(size)s; a house file over %(most)s is not read. Pick the right file."
    )
    too_long = gettext_lazy("The text is longer than any house file. Paste the house file only.")

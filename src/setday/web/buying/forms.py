"""What is typed of prices and stock."""

from django.utils.translation import gettext_lazy

from setday.web.file_form import TextFileForm, picked_file, typed_text

__all__ = ["PricesForm", "StockForm", "TableForm"]


class TableForm(TextFileForm):
    """A table saved as CSV, picked or typed."""

    file = picked_file(label=gettext_lazy("A CSV file from this device"), accept=".csv,.txt,text/*")
    text = typed_text(label=gettext_lazy("The list as text"), rows=16)

    largest = "LARGEST_PRICE_LIST"
    too_large = gettext_lazy("This file is %(size)s; a list over %(most)s is not read. Pick the right file.")
    too_long = gettext_lazy("The text is longer than any list. Paste the list only.")
    nothing_came = gettext_lazy("Nothing came. Pick a file, or type or paste the list.")


class PricesForm(TableForm):
    """A price list."""

    usual_name = "prices.csv"


class StockForm(TableForm):
    """A count of what lies in the yard."""

    usual_name = "stock.csv"

"""A pinned list never names an address and never lacks a hash."""

import pytest

from start.pins import check_text
from start.refusal import Refusal

WHOLE = "rich==15.0.0 \\\n    --hash=sha256:00\n    # via -r run.in\n"


def test_a_whole_list_is_taken():
    check_text(WHOLE, name="run.txt")


@pytest.mark.parametrize(
    "line",
    ["--index-url x", "--extra-index-url x", "--find-links x", "rich @ https://example.invalid/rich.whl"],
)
def test_a_list_that_would_name_an_address_is_refused(line):
    with pytest.raises(Refusal, match=r"run\.txt line 4 would name an address"):
        check_text(WHOLE + line + "\n", name="run.txt")


def test_a_pin_without_a_hash_is_refused():
    with pytest.raises(Refusal, match=r"run\.txt line 1 pins without a hash: rich==15"):
        check_text("rich==15.0.0\n", name="run.txt")

"""Reading printed pages back."""

import os
import re
import shutil
import subprocess

import pytest


def page_count(pdf: bytes) -> int:
    """Count the pages a PDF file says it has, and the page objects in it; they agree."""
    said = int(re.search(rb"/Type\s*/Pages\s*/Count (\d+)", pdf)[1])
    assert said == len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf))
    return said


def words_of(pdf: bytes, *, page: int | None = None) -> str:
    """Return the words of a PDF as an outside program reads them, blanks run together."""
    program = shutil.which("pdftotext")
    if program is None:
        if os.environ.get("CI"):
            raise AssertionError("no pdftotext on this machine; CI needs poppler's tools")
        pytest.skip("no pdftotext on this machine")
    only = ["-f", str(page), "-l", str(page)] if page else []
    done = subprocess.run([program, *only, "-", "-"], input=pdf, capture_output=True, check=True)
    return re.sub(r"\s+", " ", done.stdout.decode())

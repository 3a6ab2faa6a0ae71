"""Every example in a docstring of the core gives what it says."""

import doctest
from importlib import import_module

import pytest

from tests.architecture.source import core

WITH_EXAMPLES = tuple(module.name for module in core() if ">>> " in module.text)


@pytest.mark.parametrize("name", WITH_EXAMPLES)
def test_the_examples_give_what_they_say(name):
    outcome = doctest.testmod(import_module(name), optionflags=doctest.NORMALIZE_WHITESPACE)
    assert outcome.attempted > 0
    assert outcome.failed == 0

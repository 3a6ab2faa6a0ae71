"""The rules of keeping files, on a store in memory."""

import pytest

from tests.actions.keeping_rules import KeepingRules
from tests.actions.memory_store import MemoryVersions


class TestInMemory(KeepingRules):
    @pytest.fixture
    def store(self):
        return MemoryVersions()

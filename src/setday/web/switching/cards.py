"""A kept hookup at a glance, for the lists."""

from typing import Any

from setday.web.keeping.hookups import opened_hookup
from setday.web.keeping.models import KeptHookup
from setday.web.switching.thumbnail import thumbnail

__all__ = ["hookup_card"]


def hookup_card(kept: KeptHookup) -> dict[str, Any]:
    """Return a kept hookup with its newest version and its small picture."""
    read = opened_hookup(kept)
    return {
        "kept": kept,
        "version": kept.newest,
        "hookup": read.hookup,
        "picture": thumbnail(read.hookup) if read.hookup else "",
    }

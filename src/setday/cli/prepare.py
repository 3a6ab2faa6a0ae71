"""``setday prepare``: compile the searches once."""

import time

from setday.cli.app import app
from setday.cli.telling import say

__all__ = ["prepare"]


@app.command(epilog="Example:  setday prepare")
def prepare() -> None:
    """Compile the searches for this machine, once, so that first answers come quickly."""
    from setday.actions.warming import compile_searches

    begun = time.monotonic()
    for what in compile_searches(clock=time.monotonic):
        say(f"Ready: {what} ({time.monotonic() - begun:.0f} s).")

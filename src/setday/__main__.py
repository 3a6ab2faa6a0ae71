"""Where the command and the site are put together: neither knows the other.

``python -m setday`` and the command ``setday`` both start here.
"""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from setday.cli import Site, main

__all__ = ["run"]


def _serve(**settings: Any) -> None:
    from setday.web.serving import serve

    serve(**settings)


def _data_folder(named: Path | None) -> Path:
    from setday.web.place import data_folder

    if named is None:
        return data_folder()
    return Path(os.path.expanduser(named)).absolute()  # noqa: PTH111  leaves a "~" it cannot resolve


def _devices(**asked: Any) -> list[dict[str, Any]]:
    from setday.web.people.way_back import chosen_devices

    return chosen_devices(**asked)


def run() -> int:
    """Run the command with the site at hand."""
    serve: Callable[..., None] = _serve
    return main(site=Site(serve=serve, data_folder=_data_folder, devices=_devices))


if __name__ == "__main__":
    sys.exit(run())

"""Write src/setday/demo/wired.yaml anew: the demo house with its devices and circuits as proposed.

Usage: python bench/write_wired_demo.py
"""

import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

from setday.actions.cable.figured import figure_cable  # noqa: E402
from setday.actions.cable.writing import with_wiring  # noqa: E402
from setday.actions.houses import demo_text, open_house  # noqa: E402

PLACE = ROOT / "src" / "setday" / "demo" / "wired.yaml"
NAME = ("name: Plover Lane house\n", "name: Plover Lane house with its wiring\n")


def wired_text() -> str:
    """Return the demo house with what is proposed for it."""
    opened = open_house(demo_text("house").replace(*NAME), name="wired.yaml")
    return with_wiring(opened, figure_cable(opened, clock=time.monotonic))


if __name__ == "__main__":
    PLACE.write_text(wired_text(), encoding="utf-8")
    print(f"{PLACE.relative_to(ROOT)} written")

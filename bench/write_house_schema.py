"""Write docs/house-file.schema.json anew from the shape of the house file.

Usage: python bench/write_house_schema.py
"""

import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

from setday.files import house_schema  # noqa: E402

PLACE = ROOT / "docs" / "house-file.schema.json"

if __name__ == "__main__":
    PLACE.write_text(json.dumps(house_schema(), indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{PLACE.relative_to(ROOT)} written")

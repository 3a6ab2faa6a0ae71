"""Write docs/class-file.schema.json anew from the shape of the class file.

Usage: python bench/write_class_schema.py
"""

import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "src"))

from setday.files import class_schema  # noqa: E402

PLACE = ROOT / "docs" / "class-file.schema.json"

if __name__ == "__main__":
    PLACE.write_text(json.dumps(class_schema(), indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{PLACE.relative_to(ROOT)} written")

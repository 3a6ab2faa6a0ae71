"""The server killed under load, twice: the short form of bench/power_cut.py, which does it 100 times."""

import json
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]


def test_what_was_acknowledged_is_there_after_the_server_was_killed():
    variables = {
        name: value for name, value in os.environ.items() if not name.startswith(("SETDAY_", "DJANGO_"))
    }
    command = [
        sys.executable,
        str(ROOT / "bench" / "power_cut.py"),
        "--cuts",
        "2",
        "--students",
        "4",
        "--json",
    ]
    ran = subprocess.run(command, env=variables, capture_output=True, text=True, timeout=240, check=False)
    assert ran.returncode == 0, ran.stderr[-2000:]
    found = json.loads(ran.stdout)
    assert (found["wrong"], found["refused"]) == ([], [])
    assert found["acknowledged"] > 0

"""Throw malformed house files at the reader for ten minutes: no exception, nothing over two seconds.

Usage: python bench/fuzz_house.py [--minutes 10] [--keep FOLDER]

Guided by coverage where `atheris` is there (Linux; pip install -r requirements/bench.txt); elsewhere it says
so and changes the demo files at random instead.  A file that fails is written into FOLDER and named.
"""

import argparse
import random
import re
import sys
import tempfile
import time
from importlib.util import find_spec
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
SRC = ROOT / "src"
LONGEST_SECONDS = 2.0
SLOWED_BY_WATCHING = 20
"""Following every branch makes a reading that many times slower, about."""
WORDS = (
    "setday house: 1", "name: ", "unless noted:", "wall kinds:", "outside walls:", "walls:", "openings:",
    "rooms:", "ceilings:", "soffits:", "hatches:", "wet areas:", "floor holes:", "reserved:", "as built:",
    "foundation:", "boards:", "local rules:", "walk:", "kind: ", "studs: 2x6", "runs: north", "from: ",
    "to: ", "center: ", "west face: ", " east of ", " north of the far face of ", "at: [6', 6']",
    'door: 3\'-0" x 6\'-8"', "window: ", " from west end", " going east", "back to start", "east 24'",
    'northeast 5\'-8"', "peak: 12' in the middle", "top:", "shape: scissors", 'rise: 4" per foot', "on: {",
    "stud added at 4'", "choices:", "off-cuts: none", "- ", "{", "}", "[", "]", ": ", "'", '"', "\t", "#",
    "&a ", "*a", "!!int ", "<<: ", "---\n", "|\n", ">-\n", "1/2", "8.6'", "9999999'", "-3'", "½", "’", "”",
    "devices:", "circuits:", "wiring:", "counters:", "is: smoke alarm", "ceiling: middle", "serves: ",
    "gangs: ", "load: 12 kW", "breaker: ", "volts: 240", "spaces: ", "closed walls: ", "box: ",
    "house.backing_shown: ",
    "\xa0", "\ufeff", "\x85", "\u2028", "%YAML 1.1\n", "? ", "\r\n",
)  # fmt: skip


SMALL = """\
setday house: 1
name: x
unless noted: {wall height: 8', ceiling framing: north-south}
wall kinds: {a: {studs: 2x4}}
outside walls: {walk: {s: east 9', e: north 9', n: west 9', w: south 9'}}
walls: {m: {runs: north, from: s, to: n, west face: 4' east of w, peak: 9' in the middle}}
openings: {d: {wall: s, door: 3068, center: 2'-6" from west end}}
rooms: {r: {at: [2', 2']}}
ceilings: {r: {shape: vault, rise: 3/12, ridge runs: east-west, ridge: 4'}}
wet areas: {t: {room: r, board: none, top: 6', on: {w: 30" from north end}}}
floor holes: {h: {west side: at w, east-west: 2', south side: at s, north-south: 2'}}
as built: {m: [stud added at 2']}
boards: {choices: [{on: walls, kind: regular}], carry in: {r: 8'}, hanging days: [[r]]}
devices:
  l: {is: light, room: r, ceiling: middle}
  k: {is: switch, room: r, wall: w, center: 1' from south end, serves: l}
circuits: {c: {use: general, breaker: 15 A, devices: [l, k]}}
wiring: {panel: "1' east, 1' north", set slack: 12', closed walls: m}
counters: {q: {room: r, on: {n: 2' from west end}}}
local rules: {boards.stagger: 16", house.header_light: 3"}
"""


def seeds() -> list[bytes]:
    """Return whole house files to begin with."""
    house = (SRC / "setday" / "demo" / "house.yaml").read_text(encoding="utf-8")
    shed = (SRC / "setday" / "demo" / "shed.yaml").read_text(encoding="utf-8")
    bare = "\n".join(line for line in shed.splitlines() if line and not line.startswith("#")) + "\n"
    sections = [
        part for part in re.split(r"\n(?=[a-z])", house) if not part.startswith(("#", "openings", "walls"))
    ]
    small = [SMALL, "".join(f"{word}\n" for word in WORDS[:20]), "", *(bare + part for part in sections)]
    return [text.encode() for text in (shed, bare, *small)]


def try_one(data: bytes, *, longest: float = LONGEST_SECONDS) -> None:
    """Read one file the way every door of Setday does, and build the house of it."""
    from setday.actions import open_house
    from setday.files import draft_house, read_house, write_changes

    begun = time.process_time()
    file = read_house(data, name="house.yaml")
    read_seconds = time.process_time() - begun
    for finding in file.findings:
        assert str(finding)
        assert finding.where.line >= 1
    assert file.description is not None or file.findings, "nothing read and nothing said"
    opened = open_house(data, name="house.yaml")
    assert opened.house is not None or opened.problems, "nothing built and nothing said"
    if file.description is not None:
        assert write_changes(file.text) == file.text
        again = read_house(draft_house(file.description, boards=file.boards, local=file.local), name="again")
        assert again.description is not None, [str(each) for each in again.findings]
    assert read_seconds < longest, f"reading took {read_seconds:.1f} s"


def guided(minutes: float, folder: Path) -> None:
    """Fuzz guided by coverage; ends the program by itself."""
    import atheris

    with atheris.instrument_imports(include=["setday.files", "setday.house", "setday.measure"]):
        import setday.files
        import setday.house  # noqa: F401
    corpus = folder / "corpus"
    corpus.mkdir(parents=True, exist_ok=True)
    for number, seed in enumerate(seeds()):
        (corpus / f"seed-{number}").write_bytes(seed)
    words = folder / "words"
    words.write_text("".join(f'"{_escaped(word)}"\n' for word in WORDS), encoding="ascii")
    options = [f"-max_total_time={int(minutes * 60)}", "-timeout=90", "-max_len=6000", "-rss_limit_mb=1500"]
    options += [f"-dict={words}", f"-artifact_prefix={folder}/failed-", "-print_final_stats=1"]
    longest = LONGEST_SECONDS * SLOWED_BY_WATCHING
    atheris.Setup([sys.argv[0], *options, str(corpus)], lambda data: try_one(data, longest=longest))
    atheris.Fuzz()


def _escaped(word: str) -> str:
    return "".join(f"\\x{byte:02x}" for byte in word.encode())


def at_random(minutes: float, folder: Path) -> int:
    """Change the seeds at random until the time is up; return how many files failed."""
    chance, until, count = random.Random(1), time.monotonic() + minutes * 60, 0
    beginnings = seeds()
    while time.monotonic() < until:
        data = changed(chance.choice(beginnings), chance)
        count += 1
        try:
            try_one(data)
        except Exception as error:  # noqa: BLE001 - whatever it is, it is the finding
            kept = folder / "failed.yaml"
            kept.write_bytes(data)
            print(f"file {count} failed: {type(error).__name__}: {error}\nkept as {kept}")
            return 1
    print(f"{count:,} files read in {minutes:g} minutes; none failed")
    return 0


def changed(data: bytes, chance: random.Random) -> bytes:
    """Return a file with a few random changes: bytes, words, lines left out, moved or doubled."""
    text = bytearray(data)
    for _ in range(chance.randint(1, 6)):
        at = chance.randrange(len(text) + 1)
        kind = chance.randrange(4)
        if kind == 0 and text:
            text[at % len(text)] = chance.randrange(256)
        elif kind == 1:
            text[at:at] = chance.choice(WORDS).encode()
        elif kind == 2:
            del text[at : at + chance.randint(1, 80)]
        else:
            text[at:at] = text[chance.randrange(len(text) + 1) :][: chance.randint(1, 200)]
    return bytes(text)


def main() -> int:
    """Run the fuzzer."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--minutes", type=float, default=10)
    asked.add_argument("--keep", type=Path, help="folder for files that fail and for the corpus")
    given = asked.parse_args()
    folder = given.keep or Path(tempfile.mkdtemp(prefix="fuzz-house-"))
    folder.mkdir(parents=True, exist_ok=True)
    sys.path.insert(0, str(SRC))
    if find_spec("atheris"):
        guided(given.minutes, folder)
        return 0
    print("atheris is not installed here (Linux: pip install -r requirements/bench.txt);")
    print("changing files at random instead")
    return at_random(given.minutes, folder)


if __name__ == "__main__":
    raise SystemExit(main())

"""Invented students who figure with plain numbers and go wrong: nothing here knows the diagnoser.

A student walks through a figure the way it is taught, asking at every step whether something happens to
them there.  On a first walk nothing does and every chance is noted; then one or two chances are drawn and
the walk is done again.  Measures are taken from the house by their geometry; the arithmetic is done here.
"""

import math
import random
from dataclasses import dataclass, field
from itertools import pairwise

__all__ = ["UNKNOWN", "Said", "Student"]

UNKNOWN = "unknown"


@dataclass
class Said:
    """One line on a student's paper."""

    key: str
    label: str
    value: float
    unit: str
    decimals: int
    measured: bool = False
    worked: str = ""

    @property
    def text(self):
        """The number as written, with its unit."""
        if self.unit == "in":
            sixteenths = round(self.value * 16)
            feet, rest = divmod(sixteenths, 192)
            whole, part = divmod(rest, 16)
            odd = f" {part // math.gcd(part, 16)}/{16 // math.gcd(part, 16)}" if part else ""
            return f"{feet}'-{whole}{odd}\""
        return f"{self.value:.{self.decimals}f} {self.unit}"


@dataclass
class Student:
    """Somebody with a pencil, and what goes wrong today: chances are (kind, line, about)."""

    slips: tuple = ()
    draw: random.Random = field(default_factory=lambda: random.Random(0))
    decimals: int = 1
    keeps_rounded: bool = True
    writes_sums: bool = False
    chances: list = field(default_factory=list)
    lines: list = field(default_factory=list)
    everywhere: set = field(default_factory=set)

    def happens(self, kind, line, about=""):
        """Say whether this slip happens here, and note that it could."""
        chance = (kind, line, about)
        if chance not in self.chances:
            self.chances.append(chance)
        return chance in self.slips

    # ------------------------------------------------------------ reading the tape
    def tape(self, key, label, inches):
        """Read a measure and write it down."""
        value = inches
        feet, rest = divmod(inches, 12)
        if 10 <= feet < 100 and len(set(str(int(feet)))) == 2 and self.happens("digits-swapped", key):
            value = int(str(int(feet))[::-1]) * 12 + rest
        if self.happens("tape-foot", key):
            value = inches + self.draw.choice((-12, 12) if inches > 24 else (12,))
        if self.happens(UNKNOWN, key):
            value = inches + self.draw.choice((-1, 1)) * self.draw.choice((5, 7, 15, 19, 24, 31))
            value = value if value > 6 else inches + 19
        self.lines.append(Said(key, label, value, "in", 0, measured=True))
        return value

    def feet(self, inches, line, about):
        """Turn a measure into feet on some line."""
        foot, rest = divmod(inches, 12)
        if rest and self.happens("decimal-feet", line, about):
            return (
                float(f"{int(foot)}.{f'{rest:g}'.replace('.', '')}")
                if rest == int(rest)
                else foot + int(rest) / (10 if rest < 10 else 100)
            )
        if self.happens("inches-as-feet", line, about):
            return inches
        return inches / 12

    # ------------------------------------------------------------ a line comes out
    def line(self, key, label, value, unit, *, whole=False, plain=True, sum_words=""):
        """Write a line down and go on with what is on the paper, or with what the calculator holds."""
        decimals = 0 if whole else self.decimals
        worked = sum_words if self.writes_sums else ""
        if plain and self.happens("arithmetic", key):
            value = self.wrong_sum(value, worked)
        if self.happens(UNKNOWN, key):
            value, worked = self.something_else(value, whole), ""
        shown = round(value, decimals)
        if self.can_swap(shown, decimals) and self.happens("digits-swapped", key):
            shown = value = self.swapped(shown, decimals)
        self.lines.append(Said(key, label, shown, unit, decimals, worked=worked))
        return shown if self.keeps_rounded else value

    def wrong_sum(self, value, worked):
        """Return a sum with a carry lost or the point misplaced; anything at all where the sum is written."""
        if worked:
            return value * self.draw.choice((0.83, 0.9, 0.94, 1.06, 1.13, 1.2))
        columns = [c for c in (1, 10, 100) if c < value]
        ways = [value + s * c for c in columns for s in (1, -1)] + [value * 10, value / 10]
        return self.draw.choice(ways)

    def something_else(self, value, whole):
        """Return a number come by in a way that is no kind of slip here."""
        way = self.draw.randrange(4)
        if way == 0:
            wrong = value * self.draw.uniform(0.55, 1.6)
        elif way == 1:
            wrong = value + self.draw.uniform(0.08, 0.5) * value * self.draw.choice((-1, 1))
        elif way == 2:
            wrong = value * self.draw.choice((1.25, 0.75, 1.33, 0.6, 1.5))
        else:
            wrong = value * self.draw.uniform(0.7, 1.3) + self.draw.choice((2.7, 3.4, 5.9))
        return max(1.0, float(round(wrong))) if whole else max(0.3, wrong)

    @staticmethod
    def digits(shown, decimals):
        """Return the digits of a number as written."""
        return f"{abs(shown):.{decimals}f}".replace(".", "")

    def can_swap(self, shown, decimals):
        """Say whether two neighbouring digits differ."""
        digits = self.digits(shown, decimals)
        return any(a != b for a, b in pairwise(digits))

    def swapped(self, shown, decimals):
        """Return the number with two neighbouring digits in each other's place."""
        digits = list(self.digits(shown, decimals))
        place = self.draw.choice([n for n in range(len(digits) - 1) if digits[n] != digits[n + 1]])
        digits[place], digits[place + 1] = digits[place + 1], digits[place]
        return int("".join(digits)) / 10**decimals

    # ------------------------------------------------------------ ways of figuring
    def times(self, key, label, a, b, unit="ft2"):
        """Multiply two numbers."""
        return self.line(key, label, a * b, unit, sum_words=f"{a:.6g} x {b:.6g}")

    def add(self, key, label, parts, unit="ft2", *, whole=False, corner=0.0):
        """Add up what belongs together and take the rest off: parts are (about, value, what)."""
        many = sum(what == "side" for _, _, what in parts) > 1 or len(parts) > 1
        total = 0.0
        every = sum(what == "opening" for _, _, what in parts) > 1
        all_left = every and self.happens("opening-forgotten", key, "Every opening")
        all_added = every and self.happens("opening-added", key, "Every opening")
        for about, value, what in parts:
            total += self.part(key, about, value, what, many, all_left, all_added)
        if corner and self.happens("corner-twice", key):
            total += corner * self.draw.choice((1, 4))
        words = "".join(
            f"{' - ' if what == 'opening' else ' + '}{value:.6g}" for _, value, what in parts
        ).removeprefix(" + ")
        untouched = not any(
            s[1] == key and s[0] not in {"arithmetic", "digits-swapped", UNKNOWN} for s in self.slips
        )
        return self.line(key, label, total, unit, whole=whole, sum_words=words if untouched else "")

    def part(self, key, about, value, what, many, all_left, all_added):
        """Return what one part adds to the sum."""
        if what == "opening":
            if self.happens("opening-forgotten", key, about) or all_left:
                return 0.0
            return value if self.happens("opening-added", key, about) or all_added else -value
        left, twice = {
            "side": ("part-forgotten", "part-twice"),
            "ceiling": ("ceiling-forgotten", "part-twice"),
            "allowance": ("allowance-forgotten", "allowance-twice"),
            "end": ("end-forgotten", "end-twice"),
        }.get(what, ("", ""))
        if left and many:
            if self.happens(left, key, about):
                return 0.0
            if self.happens(twice, key, about):
                return 2 * value
        return value

    def pieces(self, key, label, amount, piece, unit):
        """Divide by a piece and round up."""
        exact = amount / piece
        if self.happens("rounded-down", key):
            return self.line(key, label, float(math.floor(exact + 1e-9)), unit, whole=True, plain=False)
        if abs(exact - round(exact)) > 0.02 and self.happens("unrounded", key):
            self.lines.append(Said(key, label, round(exact, 2), unit, 2))
            return round(exact, 2)
        return self.line(key, label, float(math.ceil(exact - 1e-9)), unit, whole=True, plain=False)

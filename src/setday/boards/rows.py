"""Which way the boards may run on a surface."""

from setday.boards.problem import Rows
from setday.boards.specified import Cover, nominal
from setday.house import Surface, SurfaceKind
from setday.measure import Length
from setday.rules import RuleBook

__all__ = ["allowed_rows"]

_CEILING = {"across members": (Rows.ALONG,), "with members": (Rows.ACROSS,)}
_HIGH = {"along": (Rows.ALONG,), "across": (Rows.ACROSS,)}


def allowed_rows(
    surface: Surface,
    cover: Cover,
    box: tuple[int, int, int, int],
    widths: tuple[int, ...],
    longest: int,
    rules: RuleBook,
) -> tuple[tuple[Rows, ...], str]:
    """Return the directions allowed on a surface, best first, and why.

    The instructor's choice decides; otherwise ceilings follow ``boards.ceiling_rows``, and walls run
    along up to ``boards.rows_along_height`` or two rows of the widest board, above that as
    ``boards.high_wall_rows`` says (upright only where one board reaches from floor to ceiling).
    """
    if cover.rows is not None:
        return (cover.rows,), "the instructor's choice"
    if surface.kind is SurfaceKind.CEILING:
        return _ceiling_rows(surface, cover, rules)
    height = box[3] - box[1]
    limit = rules.length("boards.rows_along_height")
    if height <= limit.sixtyfourths:
        return (Rows.ALONG,), f"not higher than {limit}"
    if widths and height <= 2 * widths[-1]:
        return (Rows.ALONG,), f"two rows of boards {Length(widths[-1])} wide reach up"
    wish = rules.choice("boards.high_wall_rows")
    if wish in _HIGH:
        return _HIGH[wish], f"higher than {limit}: set to run {wish}"
    if height <= longest:
        return (Rows.ACROSS, Rows.ALONG), f"higher than {limit}: either way"
    return (Rows.ALONG,), f"higher than the longest board, {Length(longest)}"


def _ceiling_rows(surface: Surface, cover: Cover, rules: RuleBook) -> tuple[tuple[Rows, ...], str]:
    wish = rules.choice("boards.ceiling_rows")
    if wish in _CEILING:
        return _CEILING[wish], f"ceilings run {wish}"
    key = f"boards.spacing_ceiling_with_{nominal(cover.thickness)}"
    if key in rules.rules and surface.member_spacing <= rules.length(key):
        return (Rows.ALONG, Rows.ACROSS), "either way"
    return (
        Rows.ALONG,
    ), f"the joists are too far apart for {nominal(cover.thickness)} in board laid with them"

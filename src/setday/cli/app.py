"""The verbs of the command."""

from typing import Annotated

import typer

from setday import __version__

__all__ = ["app"]

app = typer.Typer(
    name="setday",
    help="The workbench of a construction-trades class: one house file, every figure, drawing and sheet.",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
)


def _tell_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"setday {__version__}")
        raise typer.Exit


@app.callback()
def setday(
    version: Annotated[
        bool,
        typer.Option("--version", help="Say which version this is.", callback=_tell_version, is_eager=True),
    ] = False,
) -> None:
    """The workbench of a construction-trades class: one house file, every figure, drawing and sheet."""


from setday.cli import check, draw, boards, buying, switching, switching_house, cable, cable_runs, gates  # noqa: E402, F401, I001  the verbs, in the order of a first day
from setday.cli import timetable, timetable_odds, timetable_repair, timetable_explain  # noqa: E402, F401
from setday.cli import timetable_bells, timetable_ahead, timetable_calendar, site, prepare  # noqa: E402, F401

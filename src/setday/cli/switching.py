"""``setday switching``: plan a hookup, try it in every position, judge it, find the fault."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from setday.cli.app import app
from setday.cli.check import tell_findings
from setday.cli.reading import bytes_of, write_bytes, write_text
from setday.cli.start import CHECK_FAILED
from setday.cli.telling import heading, say, say_json, table

if TYPE_CHECKING:
    from setday.files import HookupFile
    from setday.switching import Diagnosis, Hookup, Judgment, Plan, Score

__all__ = ["Json", "switching", "tell_cautions"]

switching = typer.Typer(
    name="switching",
    help="Hookups: plan one, try it in every position, judge it, find the fault.",
    no_args_is_help=True,
    rich_markup_mode=None,
)
app.add_typer(switching)

File = Annotated[Path, typer.Argument(help="The hookup file; - reads standard input.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document.")]


def _read(path: Path) -> "HookupFile":
    from setday.actions.switching.hookups import open_hookup

    return open_hookup(bytes_of(path, what="a hookup file"), name=str(path))


def _sound(path: Path) -> "Hookup":
    return _read(path).sound()


def tell_cautions() -> None:
    """Write the cautions that stand under everything on switching."""
    from setday.switching import CAUTIONS

    say()
    for caution in CAUTIONS:
        say(f"* {caution}")


@switching.command("check", epilog="Example:  setday switching check hall.yaml")
def check_file(file: File, as_json: Json = False) -> int:
    """List everything in a hookup file that does not fit together, with its line.

    Ends with status 1 when there are problems.
    """
    from setday.cli.switching_documents import check_document

    read = _read(file)
    if as_json:
        say_json(check_document(read))
    else:
        tell_findings(read.findings)
        many = len(read.problems)
        say(f"{many} to put right before it can be tried." if many else "It can be tried as it is.")
    return CHECK_FAILED if read.problems else 0


@switching.command("try", epilog="Example:  setday switching try hall.yaml")
def try_file(
    file: File,
    live: Annotated[bool, typer.Option("--live", help="Also list what is live in every position.")] = False,
    as_json: Json = False,
) -> int:
    """Try a hookup in every position of its switches: every lamp, the breaker, what stays live."""
    from setday.cli.switching_documents import try_document
    from setday.drawing import position_table
    from setday.switching import try_hookup

    trial = try_hookup(_sound(file))
    if as_json:
        say_json(try_document(trial))
        return 0
    shown = position_table(trial)
    heading(shown.caption)
    table(shown.head, shown.rows)
    if live:
        for tried in trial.positions:
            say(f"live with {tried.words}: {', '.join(f'{p} ({p.box})' for p in tried.live) or 'nothing'}")
    for words, points in (("open ground", trial.open_grounds), ("loose", trial.loose)):
        for point in points:
            say(f"{words}: {point} in box '{point.box}'")
    tell_cautions()
    return 0


@switching.command("judge", epilog="Example:  setday switching judge hall.yaml")
def judge_file(
    file: File,
    fill: Annotated[bool, typer.Option("--fill", help="Also show the working of each box's fill.")] = False,
    as_json: Json = False,
) -> int:
    """Judge a hookup against what is wanted of it and the code rules in force.

    Ends with status 1 when something is wrong.
    """
    from setday.cli.switching_documents import judge_document
    from setday.switching import judge

    judgment = judge(_sound(file))
    if as_json:
        say_json(judge_document(judgment))
    else:
        _tell_judgment(judgment, fill=fill)
    return 0 if judgment.clean else CHECK_FAILED


def _tell_judgment(judgment: "Judgment", *, fill: bool) -> None:
    heading(judgment.trial.hookup.name)
    wants = judgment.trial.hookup.wants
    if not wants:
        say("Nothing is wanted of it yet: add the wants, like L1 from S1 and S2.")
    elif judgment.works:
        say(f"It does what is wanted in all {len(judgment.trial.positions)} positions.")
    tell_findings(judgment.behavior)
    if judgment.code:
        say("Code rules:")
        tell_findings(judgment.code)
        for source in dict.fromkeys(str(finding.source) for finding in judgment.code if finding.source):
            say(f"    source: {source}")
    for number, mend in enumerate(judgment.mends, start=1):
        left = f" ({mend.left} code findings would be left)" if mend.left else ""
        say(f"would mend it, {number}: {' Then: '.join(mend.steps)}{left}")
    if fill:
        _tell_fill(judgment)
    _tell_rules(judgment)
    tell_cautions()


def _tell_fill(judgment: "Judgment") -> None:
    from setday.switching import box_fill

    for box in judgment.trial.hookup.boxes:
        working = box_fill(judgment.trial.hookup, box.name, judgment.trial.circuit.rules)
        room = f"{box.volume_in3:g} in3" if box.volume_in3 is not None else "not written"
        say(f"{working.title}: {working.result}; the box has {room}.")
        for step in working.steps:
            say(f"    {step.label}: {step.expression} = {step.result}")


def _tell_rules(judgment: "Judgment") -> None:
    from setday.switching import code_rules

    rules = code_rules(judgment.trial)
    held = [rule for rule in rules if rule.value not in {False, "no"}]
    off = [rule.label for rule in rules if rule not in held]
    say()
    say(f"Held against {len(held)} code rules: {'; '.join(str(rule.source) for rule in held)}.")
    if off:
        say(f"Not checked, switched off by a local rule: {'; '.join(off)}.")


@switching.command("plan", epilog="Example:  setday switching plan hall.yaml --out hall-planned.yaml")
def plan_file(
    file: File,
    out: Annotated[Path | None, typer.Option("--out", help="Write the planned hookup to a file.")] = None,
    cables: Annotated[str, typer.Option("--cables", help="The cables there are, like 14/2,14/3,14/4.")] = "",
    seconds: Annotated[float, typer.Option("--seconds", min=0.1, help="Time limit of the search.")] = 1.5,
    as_json: Json = False,
) -> int:
    """Plan the hookup with the fewest conductor-feet from boxes, paths and wants, with its proof."""
    from setday.cli.switching_documents import plan_document
    from setday.files import write_hookup
    from setday.switching import plan

    stock = tuple(part.strip() for part in cables.split(",") if part.strip())
    planned = plan(_sound(file), stock=stock, seconds=seconds)
    if out is not None:
        write_text(out, write_hookup(planned.hookup))
    if as_json:
        say_json(plan_document(planned))
    else:
        _tell_plan(planned)
    return 0


def _tell_plan(planned: "Plan") -> None:
    hookup = planned.hookup
    heading(hookup.name)
    rows = [(c.name, c.kind, c.a, c.b, c.length, ", ".join(c.remarked)) for c in hookup.cables]
    table(("cable", "kind", "from", "to", "long", "re-marked"), rows, right=(4,))
    say()
    table(("box", "joined"), [(join.box, str(join)) for join in hookup.joins])
    say()
    proof = "no choice of cables has fewer" if planned.proven else f"at least {planned.bound_feet:.1f}"
    say(f"{planned.conductor_feet:,.1f} conductor-feet without the feed; {proof}.")
    say(planned.scope)
    say(f"Tried in all {len(planned.judgment.trial.positions)} positions: it does what is wanted.")
    tell_findings(planned.judgment.findings)
    tell_cautions()


@switching.command("find", epilog='Example:  setday switching find hall.yaml --saw "S1 up, S2 down: L1 off"')
def find_fault(
    file: File,
    saw: Annotated[
        list[str] | None,
        typer.Option("--saw", help="What was seen or measured; may be given again. Added to the file's."),
    ] = None,
    faults: Annotated[
        int, typer.Option("--faults", min=0, max=2, help="1, 2, or 0: two when no single one explains it.")
    ] = 0,
    dead_only: Annotated[
        bool, typer.Option("--dead-only", help="Never propose a live voltage reading.")
    ] = False,
    most: Annotated[int, typer.Option("--most", min=1, help="List at most so many suspects.")] = 20,
    as_json: Json = False,
) -> int:
    """Find what explains all that was observed, from a correct plan, and the next flip or reading."""
    from setday.cli.switching_documents import find_document
    from setday.files import read_observation
    from setday.switching import Meter, diagnose

    read = _read(file)
    hookup = read.sound()
    seen = (*read.observed, *(read_observation(text, hookup) for text in saw or ()))
    meters = (Meter.DEAD,) if dead_only else (Meter.DEAD, Meter.LIVE)
    progress = None if as_json or not sys.stderr.isatty() else _progress
    found = diagnose(hookup, seen, faults=faults, meters=meters, progress=progress)
    if as_json:
        say_json(find_document(found, hookup.name, most=most))
    else:
        _tell_found(found, most)
    return 0


def _progress(done: int, of: int) -> bool:
    sys.stderr.write(f"\rpairs of faults: {done * done / max(1, of * of):.0%}   ")
    sys.stderr.flush()
    return True


def _tell_found(found: "Diagnosis", most: int) -> None:
    say(found.verdict)
    shown = found.suspects[:most]
    rows = [
        (
            f"{suspect.share:.1%}",
            suspect.group + 1 if suspect.group >= 0 else "",
            " AND ".join(suspect.faults),
        )
        for suspect in shown
    ]
    if rows:
        table(("share", "group", "fault"), rows, right=(0, 1))
        say("Faults of one group cannot be told apart by any flip or reading.")
    if len(found.suspects) > most:
        say(f"... and {len(found.suspects) - most} more; --most lists more of them.")
    if found.next:
        left, now = found.next.groups_left, found.next.groups_now
        say(f"next: {found.next.words} ({now} groups now, about {left:.1f} after it)")
    tell_cautions()


@switching.command(
    "hunt",
    epilog='Example:  setday switching hunt hall.yaml --seed 7 --ask "S1 up, S2 down" --ask "S1 up, S2 up"',
)
def hunt_fault(
    file: File,
    seed: Annotated[int, typer.Option("--seed", help="Which fault is drawn; keep it while you hunt.")] = 1,
    difficulty: Annotated[str, typer.Option("--difficulty", help="easy, medium or hard.")] = "easy",
    ask: Annotated[
        list[str] | None,
        typer.Option("--ask", help="A flip, or a reading: 'S1 up, S2 up: dead, A to B in BOX'."),
    ] = None,
    name: Annotated[str, typer.Option("--name", help="Name the fault, in the words of --list.")] = "",
    list_faults: Annotated[bool, typer.Option("--list", help="List the faults that can be named.")] = False,
    as_json: Json = False,
) -> int:
    """Hunt a planted fault: ask for flips and readings, name it, see what the shortest way takes.

    Ends with status 1 when the fault named is not the one planted.
    """
    from setday.cli.switching_documents import hunt_document
    from setday.errors import SetdayError
    from setday.files import read_test, write_observation
    from setday.switching import Difficulty, HuntGround

    hookup = _sound(file)
    if difficulty not in set(Difficulty):
        raise SetdayError(f"'{difficulty}' is no difficulty.", do=f"Write {', '.join(Difficulty)}.")
    ground = HuntGround(hookup)
    planted = ground.draw(difficulty=Difficulty(difficulty), seed=seed)
    tests = [read_test(text, hookup) for text in ask or ()]
    seen = [write_observation(ground.answer(planted, test), hookup) for test in tests]
    score = ground.score(planted, tests, named=name) if name else None
    if as_json:
        say_json(hunt_document(hookup.name, seen, ground.fault_words() if list_faults else (), score))
    else:
        for line in (*(ground.fault_words() if list_faults else ()), *seen):
            say(line)
        if score:
            _tell_score(score)
        tell_cautions()
    return CHECK_FAILED if score and not score.right else 0


def _tell_score(score: "Score") -> None:
    say("That is it." if score.right else "That is not it.")
    say(f"You took {score.tests} {'test' if score.tests == 1 else 'tests'}, effort {score.effort:g}.")
    say(f"The shortest way known takes {score.best_tests} tests, effort {score.best_effort:g}.")
    if score.left > 1:
        say(f"Your tests had left {score.left} groups of faults that would have shown the same.")


@switching.command("draw", epilog="Example:  setday switching draw hall.yaml --out hall.svg --pdf hall.pdf")
def draw_hookup(
    file: File,
    out: Annotated[Path | None, typer.Option("--out", help="The drawing; as FILE with .svg.")] = None,
    pdf: Annotated[Path | None, typer.Option("--pdf", help="Also write letter pages.")] = None,
    at: Annotated[str, typer.Option("--at", help="Show a position: what is live, where current flows.")] = "",
    as_json: Json = False,
) -> int:
    """Draw a hookup: every conductor in its color and marked to read in black and white."""
    from setday.drawing import hookup_diagram, shown_at
    from setday.files import read_test
    from setday.switching import try_hookup

    hookup = _sound(file)
    shown = shown_at(try_hookup(hookup), read_test(at, hookup).position) if at else None
    path = out or (Path("hookup.svg") if str(file) == "-" else file.with_suffix(".svg"))
    write_text(path, hookup_diagram(hookup, shown=shown))
    if pdf is not None:
        from datetime import datetime

        from setday.actions.switching.hookups import hookup_pages

        write_bytes(pdf, hookup_pages((hookup,), dated=datetime.now().astimezone().date()))
    if as_json:
        say_json({"hookup": hookup.name, "drawing": str(path), "pages": str(pdf) if pdf else ""})
    else:
        say(f"{path}{f' and {pdf}' if pdf else ''} written.")
    return 0


@switching.command("example", epilog="Example:  setday switching example three-way-light-between > hall.yaml")
def example(
    name: Annotated[str, typer.Argument(help="Which one; none lists them.")] = "", as_json: Json = False
) -> int:
    """Print an example circuit as a hookup file, or list the examples."""
    from setday.actions.switching.hookups import example_names, example_text

    if as_json:
        text = example_text(name) if name else ""
        say_json({"examples": list(example_names()), "name": name, "text": text})
    elif name:
        sys.stdout.write(example_text(name))
    else:
        for each in example_names():
            say(each)
    return 0

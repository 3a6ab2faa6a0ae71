"""Board runs: started, watched, stopped, kept, shown."""

import json
import re
from types import SimpleNamespace

import pytest

from setday.boards import CrewShare, Progress, boards_document
from setday.files import from_record, layout_from_record, to_record
from setday.web.boards import views_runs, views_what_if, worker
from setday.web.boards.crews import awaited
from setday.web.boards.figuring import figured, lay_out
from setday.web.boards.kept import so_far
from setday.web.keeping.models import BoardRun, PriceList, RunState

RUNS = "/houses/practice-shed/boards/"
ASKED = {"seconds": "15", "offcuts": "", "longest": "", "prices": "", "label": "first look"}


def page(answer):
    return answer.content.decode()


@pytest.fixture
def begun(monkeypatch):
    """Return the runs that were handed to the worker, which does nothing here."""
    handed = []
    for views in (views_runs, views_what_if):
        monkeypatch.setattr(views, "begin", handed.append)
    return handed


@pytest.fixture
def waiting(shed):
    """Return a run of one second that waits."""
    return BoardRun.objects.create(version=shed.newest, number=1, options={"seconds": 1})


def test_a_run_is_written_down_and_handed_to_the_worker(desk, shed, begun):
    answer = desk.post(RUNS, ASKED)
    run = BoardRun.objects.get()
    assert answer.headers["Location"] == f"{RUNS}1/"
    assert (run.state, run.label, run.options["seconds"]) == (RunState.WAITING, "first look", 15)
    assert begun == [run]


def test_runs_of_a_house_are_numbered_from_one(desk, shed, begun):
    for _ in range(3):
        desk.post(RUNS, ASKED)
    assert sorted(run.number for run in begun) == [1, 2, 3]


@pytest.mark.parametrize(
    "wrong", [{"seconds": "7"}, {"seconds": ""}, {"offcuts": "far"}, {"longest": "9000'"}, {"prices": "77"}]
)
def test_a_wish_that_cannot_be_starts_nothing(desk, shed, begun, wrong):
    answer = desk.post(RUNS, {**ASKED, **wrong})
    assert (answer.status_code, begun) == (422, [])
    assert "putting right" in page(answer)


def test_a_run_ends_with_a_layout_and_its_proven_bound(waiting):
    worker.work_on(waiting.pk, stopped=lambda: False)
    waiting.refresh_from_db()
    assert waiting.state == RunState.DONE
    assert 0 < waiting.bound_cents <= waiting.cost_cents
    assert waiting.reports
    assert figured(waiting).outcome.cost_cents == waiting.cost_cents


def test_a_stopped_run_keeps_its_best_layout(waiting):
    waiting.options = {"seconds": 60}
    waiting.save()
    worker.work_on(waiting.pk, stopped=lambda: True)
    waiting.refresh_from_db()
    assert waiting.state == RunState.STOPPED
    assert waiting.seconds < 30
    assert figured(waiting).outcome.layout is not None


def test_a_run_that_waits_ends_at_once_when_stopped(desk, waiting):
    desk.post(f"{RUNS}1/stop/")
    waiting.refresh_from_db()
    assert waiting.state == RunState.STOPPED
    assert "Stopped before it began" in page(desk.get(f"{RUNS}1/"))


def test_a_run_stopped_while_waiting_is_not_begun_later(waiting):
    worker.ask_to_stop(waiting)
    worker.work_on(waiting.pk, stopped=lambda: False)
    waiting.refresh_from_db()
    assert (waiting.state, waiting.outcome) == (RunState.STOPPED, None)


def test_a_price_list_without_boards_ends_in_words(desk, school, waiting):
    text = "key,price\nscrews,4.00\n"
    waiting.prices = PriceList.objects.create(school=school, number=1, file_name="screws.csv", text=text)
    waiting.save()
    worker.work_on(waiting.pk, stopped=lambda: False)
    waiting.refresh_from_db()
    assert waiting.state == RunState.FAILED
    assert "offers no board" in page(desk.get(f"{RUNS}1/"))


def test_a_fault_in_a_run_is_not_shown_but_said(desk, waiting, monkeypatch):
    def broken(run, *, on_progress):
        raise ZeroDivisionError("secret inside")

    monkeypatch.setattr(worker, "lay_out", broken)
    with pytest.raises(ZeroDivisionError):
        worker.work_on(waiting.pk, stopped=lambda: False)
    text = page(desk.get(f"{RUNS}1/"))
    assert "fault in Setday" in text
    assert "secret inside" not in text


def test_runs_of_a_stopped_site_are_marked_and_keep_their_best_layout(desk, waiting, recorded):
    layout = layout_from_record(recorded["layout"])
    record = so_far(layout, bound_cents=recorded["bound"]["cost_cents"])
    changes = {"state": RunState.RUNNING, "outcome": record, "kept_layouts": 1}
    BoardRun.objects.filter(pk=waiting.pk).update(**changes, cost_cents=recorded["cost_cents"])
    assert worker.mark_interrupted() == 1
    text = page(desk.get(f"{RUNS}1/"))
    assert "The site was stopped" in text
    assert f"${recorded['cost_cents'] / 100:,.2f}" in text


def test_an_outcome_survives_being_written_down(recorded):
    outcome = from_record(json.loads(json.dumps(recorded)))
    assert json.loads(json.dumps(to_record(outcome))) == json.loads(json.dumps(recorded))


def test_a_layout_that_does_not_pass_its_check_is_not_shown(desk, laid_out):
    laid_out.outcome["layout"]["pieces"][0]["x"] += 64
    laid_out.kept_layouts += 1
    laid_out.save()
    text = page(desk.get(f"{RUNS}1/"))
    assert "no layout that can be shown" in text
    assert "Cost of the boards" not in text
    assert desk.get(f"{RUNS}1/cuts/").status_code == 404


def test_reports_are_kept_when_something_changed(waiting, monkeypatch):
    monkeypatch.setattr(worker, "_SAVE_EVERY", 0.0)
    watch = worker._Watch(waiting.pk, stopped=lambda: False)
    for cost, bound in ((900, 800.0), (900, 800.0), (880, 800.0), (880, 810.0)):
        assert watch.take(Progress(cost_cents=cost, bound_cents=bound, seconds=1.0, stage="improving"))
    waiting.refresh_from_db()
    told = [(report["cost_cents"], report["bound_cents"]) for report in waiting.reports]
    assert told == [(900, 800.0), (880, 800.0), (880, 810.0)]


def test_the_list_of_reports_stays_short(waiting, monkeypatch):
    monkeypatch.setattr(worker, "_SAVE_EVERY", 0.0)
    watch = worker._Watch(waiting.pk, stopped=lambda: False)
    for step in range(3 * worker._MOST_REPORTS):
        watch.take(Progress(cost_cents=9000 - step, bound_cents=1.0, seconds=step, stage="improving"))
    waiting.refresh_from_db()
    assert len(waiting.reports) <= worker._MOST_REPORTS


@pytest.mark.parametrize(
    ("option", "law"),
    [
        ({"longest": "8'"}, lambda board: board.length <= 8 * 768),
        ({"widest": "48 in"}, lambda board: board.width <= 48 * 64),
    ],
)
def test_an_option_leaves_boards_out(waiting, option, law):
    waiting.options = {"seconds": 1, **option}
    figure = lay_out(waiting, on_progress=lambda progress: False)
    assert figure.prepared.problem.boards
    assert all(law(board) for board in figure.prepared.problem.boards)


@pytest.mark.parametrize(
    ("sheet", "shows"),
    [
        ("", "By area, and by layout"),
        ("cuts/", "Board 1"),
        ("cuts/?room=workroom", "Cut list: workroom"),
        ("cuts/?day=1", "Cut list: day 1"),
        ("cuts/?day=x&room=", "Board 1"),
        ("cuts/1/", "Other boards"),
        ("rooms/", "Crew 1, day 1"),
        ("rooms/?crews=5", "Crew"),
        ("rooms/?crews=-1", "Crew 1, day 1"),
        ("rooms/?crews=9999999", "Crew 1, day 1"),
        ("rules/", "boards.least_piece"),
        ("on/workroom/north/", "Pieces on"),
        ("on/workroom/ceiling/", "Pieces on"),
    ],
)
def test_a_sheet_of_a_run_shows_what_it_is_for(desk, laid_out, sheet, shows):
    answer = desk.get(f"{RUNS}1/{sheet}")
    assert answer.status_code == 200
    assert shows in page(answer)


@pytest.mark.parametrize(
    "sheet", ["cuts/0/", "cuts/999/", "on/no/such/", "../2/", "../2/cuts/", "../2/progress/"]
)
def test_what_a_run_has_not_is_said(desk, laid_out, sheet):
    assert desk.get(f"{RUNS}1/{sheet}").status_code == 404


def test_every_figure_on_the_summary_has_its_working(desk, laid_out):
    text = page(desk.get(f"{RUNS}1/"))
    for working in figured(laid_out).workings:
        assert working.result.replace('"', "&quot;") in text


def test_the_surface_of_the_house_shows_its_boards_once_they_are_laid_out(desk, shed, laid_out):
    assert "Boards on workroom, north wall, run 1" in page(
        desk.get("/houses/practice-shed/surfaces/workroom/north/")
    )


def test_a_run_of_an_older_version_leads_to_its_own_sheets(desk, laid_out, two_versions):
    text = page(desk.get(f"{RUNS}1/"))
    for address in ("/houses/practice-shed/buying/", "/houses/practice-shed/paper/boards.pdf"):
        found = f"{address}?run=1&amp;version=1"
        assert found in text
        answer = desk.get(found.replace("&amp;", "&"))
        assert answer.status_code == 200
        assert b"no layout yet" not in answer.content


def test_the_document_is_the_one_of_the_command(desk, laid_out):
    answer = desk.get(f"{RUNS}1/layout.json")
    assert json.loads(answer.content) == json.loads(json.dumps(boards_document(figured(laid_out))))


def test_a_run_at_work_asks_for_its_progress(desk, waiting):
    assert f'hx-get="{RUNS}1/progress/"' in page(desk.get(f"{RUNS}1/"))
    assert "<html" not in page(desk.get(f"{RUNS}1/progress/"))


def test_a_run_that_ended_sends_its_page_to_the_result(desk, laid_out):
    assert desk.get(f"{RUNS}1/progress/").headers["HX-Redirect"] == f"{RUNS}1/"


def test_what_if_starts_one_run_for_each_way(desk, shed, begun):
    ways = {"seconds": "15", "ways": ["as-chosen", "8-ft"], "rule": "boards.least_piece", "value": '30"'}
    answer = desk.post(f"{RUNS}what-if/", ways)
    assert answer.headers["Location"] == f"{RUNS}compare/?group=1"
    assert [run.label for run in begun] == ["as chosen", "boards up to 8 ft only", 'boards.least_piece = 30"']
    assert [run.options.get("longest") for run in begun] == [None, "8'", None]
    assert begun[2].options["rules"] == {"boards.least_piece": '30"'}


@pytest.mark.parametrize(
    ("ways", "says"),
    [
        ({"ways": ["as-chosen"]}, "at least two ways"),
        ({"ways": []}, "at least two ways"),
        ({"ways": ["as-chosen", "upside-down"]}, "not one of the available choices"),
        ({"ways": ["as-chosen"], "rule": "boards.least_piece", "value": "thirty"}, "is not a length"),
        ({"ways": ["as-chosen"], "rule": "boards.no_such", "value": "1"}, "not one of the available choices"),
    ],
)
def test_what_if_says_what_cannot_be_compared(desk, shed, begun, ways, says):
    answer = desk.post(f"{RUNS}what-if/", {"seconds": "15", **ways})
    assert (answer.status_code, begun) == (422, [])
    assert says in page(answer)


def test_runs_are_compared_side_by_side(desk, laid_out):
    other = BoardRun.objects.create(
        version=laid_out.version, number=2, label="dearer", options=laid_out.options, state=RunState.DONE,
        cost_cents=laid_out.cost_cents + 1234, bound_cents=laid_out.bound_cents, outcome=laid_out.outcome,
    )  # fmt: skip
    text = page(desk.get(f"{RUNS}compare/?run=1&run={other.number}"))
    assert "$12.34" in text
    assert "dearer" in text


@pytest.mark.parametrize("query", ["", "?run=x", "?run=99", "?group=0", "?group=1e9"])
def test_comparing_nothing_says_so(desk, laid_out, query):
    assert "No run was picked" in page(desk.get(f"{RUNS}compare/{query}"))


@pytest.mark.parametrize(
    ("verb", "address"),
    [("get", f"{RUNS}1/stop/"), ("post", f"{RUNS}1/"), ("post", f"{RUNS}1/progress/"), ("put", RUNS)],
)
def test_the_wrong_verb_is_refused(desk, laid_out, verb, address):
    assert getattr(desk, verb)(address).status_code == 405


def test_before_there_is_a_bound_the_page_says_so(desk, waiting):
    from setday.web.keeping.models import BoardRun

    BoardRun.objects.filter(pk=waiting.pk).update(state="running", cost_cents=12345, bound_cents=None)
    said = desk.get(f"/houses/practice-shed/boards/{waiting.number}/").content.decode()
    assert "no bound yet" in said
    assert "at most –" not in said


def test_the_headline_is_plain_and_the_method_stands_with_the_rules(desk, laid_out):
    method = laid_out.outcome["bound"]["method"]
    summary = desk.get("/houses/practice-shed/boards/1/").content.decode()
    assert "No layout that keeps the rules can cost less than" in summary
    assert method not in summary
    assert method in desk.get("/houses/practice-shed/boards/1/rules/").content.decode()


def test_the_rule_menu_says_yes_and_no(desk, shed):
    said = desk.get("/houses/practice-shed/boards/what-if/").content.decode()
    assert "(yes)" in said
    assert "(True)" not in said


def _cut(room, day=1):
    return SimpleNamespace(room=room, day=day)


def _board(number, *cuts):
    return SimpleNamespace(number=number, cuts=cuts, room=cuts[0].room, day=cuts[0].day)


def test_a_crew_is_told_whose_off_cuts_it_needs():
    # By hand: crew 1 hangs the hall, crew 2 the bath; boards 3 and 7 begin in the hall and end in the bath.
    boards = (
        _board(3, _cut("hall"), _cut("bath")),
        _board(5, _cut("bath")),
        _board(7, _cut("hall"), _cut("bath")),
    )
    shares = [
        CrewShare(day=1, crew=crew, rooms=(room,), area_sqft=1.0, boards=())
        for crew, room in ((1, "hall"), (2, "bath"))
    ]
    (_, first), (_, second) = awaited(SimpleNamespace(boards=boards), shares)
    assert first == ()
    assert [(each.crew, each.boards, each.same_day) for each in second] == [(1, (3, 7), True)]


def test_one_crew_waits_for_nobody(laid_out):
    from setday.boards import share_among_crews
    from setday.web.boards.figuring import figured

    listed = figured(laid_out).cut_list
    assert all(waits == () for _, waits in awaited(listed, share_among_crews(listed, crews=1)))


def test_the_cut_list_names_pieces_leaves_no_loose_comma_and_says_cut_outs(desk, laid_out):
    text = desk.get(f"{RUNS}1/cuts/").content.decode()
    assert ", </li>" not in text
    assert ",  <" not in text
    assert re.search(r"<strong>\d+[a-z]?</strong> \d", text)
    assert " cut out " in text
    assert "x 12 ft board" in text or "x 8 ft board" in text


@pytest.mark.parametrize(("value", "text"), [(4.86, "4.9"), (4.84, "4.8"), (7, "7"), (1234.56, "1,234.6")])
def test_a_figure_is_rounded_and_not_cut_off(value, text):
    from setday.web.layout.templatetags.sheet import figure

    assert figure(value) == text

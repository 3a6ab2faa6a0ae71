"""What the switching verbs print with --json; described in docs/switching.md."""

from typing import TYPE_CHECKING, Any

from setday.cli.check import findings_document

if TYPE_CHECKING:
    from setday.files import HookupFile
    from setday.switching import Diagnosis, Hookup, Judgment, Plan, Score, Test, Trial

__all__ = [
    "check_document",
    "find_document",
    "hookup_document",
    "hunt_document",
    "judge_document",
    "plan_document",
    "test_document",
    "try_document",
]


def _head(name: str) -> dict[str, Any]:
    from setday.switching import CAUTIONS

    return {"hookup": name, "cautions": list(CAUTIONS)}


def check_document(read: "HookupFile") -> dict[str, Any]:
    """Return the findings of a file."""
    return {
        **_head(read.hookup.name if read.hookup else ""),
        "file": read.name,
        "problems": len(read.problems),
        "findings": findings_document(read.findings),
    }


def try_document(trial: "Trial") -> dict[str, Any]:
    """Return what happens in every position."""
    return {
        **_head(trial.hookup.name),
        "switches": [switch.name for switch in trial.hookup.switches],
        "positions": [
            {
                "position": tried.words,
                "states": list(tried.position),
                "breaker": "opens" if tried.breaker.opens else "holds",
                "breaker_words": str(tried.breaker),
                "breaker_a": round(tried.breaker_a, 3),
                "loads": [
                    {"load": seen.load, "look": str(seen.look), "share": round(seen.share, 4)}
                    for seen in tried.loads
                ],
                "live": [{"box": p.box, "point": str(p)} for p in tried.live],
                "overloaded": [{"wire": wire, "a": round(a, 2)} for wire, a in tried.overloaded],
                "on_ground": [{"wire": wire, "a": round(a, 3)} for wire, a in tried.on_ground],
            }
            for tried in trial.positions
        ],
        "loose": [{"box": p.box, "point": str(p)} for p in trial.loose],
        "open_grounds": [{"box": p.box, "point": str(p)} for p in trial.open_grounds],
    }


def judge_document(judgment: "Judgment") -> dict[str, Any]:
    """Return what is wrong with a hookup and what would mend it."""
    from setday.switching import code_rules

    return {
        **_head(judgment.trial.hookup.name),
        "works": judgment.works,
        "clean": judgment.clean,
        "behavior": findings_document(judgment.behavior),
        "code": findings_document(judgment.code),
        "mends": [{"steps": list(mend.steps), "code_findings_left": mend.left} for mend in judgment.mends],
        "box_fill": [_fill(judgment.trial, box.name) for box in judgment.trial.hookup.boxes],
        "rules": [
            {
                "key": rule.key,
                "rule": rule.label,
                "value": "yes" if rule.value is True else "no" if rule.value is False else str(rule.value),
                "source": str(rule.source),
                "certainty": rule.source.certainty,
                "set_here": rule.overridden,
            }
            for rule in code_rules(judgment.trial)
        ],
    }


def _fill(trial: "Trial", box: str) -> dict[str, Any]:
    from setday.switching import box_fill

    working = box_fill(trial.hookup, box, trial.circuit.rules)
    return {
        "box": box,
        "volume_in3": trial.hookup.box(box).volume_in3,
        "needed_in3": round(working.value, 4),
        "steps": [
            {
                "label": step.label,
                "expression": step.expression,
                "result": step.result,
                "source": str(step.source),
            }
            for step in working.steps
        ],
        "assumptions": list(working.assumptions),
    }


def hookup_document(hookup: "Hookup") -> dict[str, Any]:
    """Return the cables and joins of a hookup."""
    return {
        "cables": [
            {
                "name": cable.name,
                "kind": cable.kind,
                "from": cable.a,
                "to": cable.b,
                "length_in": round(cable.length_ft * 12, 3),
                "re_marked": list(cable.remarked),
            }
            for cable in hookup.cables
        ],
        "joins": [
            {"box": join.box, "joined": [str(point) for point in join.points]} for join in hookup.joins
        ],
    }


def plan_document(planned: "Plan") -> dict[str, Any]:
    """Return a plan with what is proven of it."""
    return {
        **_head(planned.hookup.name),
        "conductor_feet": round(planned.conductor_feet, 3),
        "bound_feet": round(planned.bound_feet, 3),
        "proven": planned.proven,
        "scope": planned.scope,
        **hookup_document(planned.hookup),
        "works": planned.judgment.works,
        "findings": findings_document(planned.judgment.findings),
    }


def test_document(test: "Test") -> dict[str, Any]:
    """Return a flip or a reading."""
    from setday.switching import Measure

    if not isinstance(test, Measure):
        return {"kind": "flip", "states": list(test.position)}
    return {
        "kind": str(test.meter),
        "states": list(test.position),
        "box": test.first.box,
        "from": str(test.first),
        "to": str(test.second),
    }


def find_document(found: "Diagnosis", name: str, *, most: int) -> dict[str, Any]:
    """Return the suspects and the next test."""
    proposed = found.next
    return {
        **_head(name),
        "faults_looked_for": found.faults,
        "compared": found.looked_at,
        "stopped": found.stopped,
        "agrees_with_plan": found.agrees_with_plan,
        "verdict": found.verdict,
        "suspects_in_all": len(found.suspects),
        "suspects": [
            {
                "faults": list(suspect.faults),
                "same": [list(each) for each in suspect.same],
                "share": round(suspect.share, 5),
                "group": suspect.group,
            }
            for suspect in found.suspects[:most]
        ],
        "next": {
            "test": test_document(proposed.test),
            "words": proposed.words,
            "effort": round(proposed.effort, 3),
            "groups_now": proposed.groups_now,
            "groups_left_expected": round(proposed.groups_left, 3),
            "instructor_only": proposed.instructor,
        }
        if proposed
        else None,
    }


def hunt_document(
    name: str, seen: list[str], faults: tuple[str, ...], score: "Score | None"
) -> dict[str, Any]:
    """Return what the house showed, and the score once a fault is named; never the fault itself."""
    return {
        **_head(name),
        "seen": seen,
        "faults": list(faults),
        "score": {
            "right": score.right,
            "tests": score.tests,
            "effort": round(score.effort, 3),
            "best_tests": score.best_tests,
            "best_effort": round(score.best_effort, 3),
            "live_readings": score.live_readings,
            "groups_left": score.left,
        }
        if score
        else None,
    }

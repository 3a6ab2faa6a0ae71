"""A judgment for the page: what it does, the code rules, box fill, what would mend it."""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from setday.switching import Hookup, Judgment
    from setday.working import Working

__all__ = ["judgment_words"]


def judgment_words(hookup: "Hookup", *, mend: bool) -> dict[str, Any]:
    """Return a judgment of a hookup.

    Parameters
    ----------
    hookup : Hookup
    mend : bool
        Also look for the changes that would put it right; they give the answer away.
    """
    from setday.switching import code_rules, judge

    judgment = judge(hookup, mend=mend)
    rules = code_rules(judgment.trial)
    held = [rule for rule in rules if rule.value not in {False, "no"}]
    return {
        "judgment": judgment,
        "many": len(judgment.trial.positions),
        "fills": _fills(judgment),
        "held": held,
        "switched_off": [rule for rule in rules if rule not in held],
        "mends_shown": mend,
    }


def _fills(judgment: "Judgment") -> "list[tuple[Working, float | None]]":
    from setday.switching import box_fill

    hookup, rules = judgment.trial.hookup, judgment.trial.circuit.rules
    return [(box_fill(hookup, box.name, rules), box.volume_in3) for box in hookup.boxes]

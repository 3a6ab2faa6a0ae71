"""Switching: hookups planned, tried in every position, judged, and searched for faults."""

from setday.switching.answers import Answers, answers, catalog, observation_of
from setday.switching.asking import efforts, groups_of, hunt_lengths
from setday.switching.cautions import CAUTIONS
from setday.switching.changes import Change, ChangeKind, distinct, every_change
from setday.switching.circuit import Circuit, every_position, lay_out
from setday.switching.code import code_findings
from setday.switching.duties import Duties, Duty, duties_of
from setday.switching.exact import BestTree, best_tree
from setday.switching.fill import box_fill, box_volume_in3, fill_working, most_conductors
from setday.switching.finding import Diagnosis, Proposal, Suspect, diagnose, weight_of
from setday.switching.hookup import (
    FEED,
    PANEL,
    Box,
    Cable,
    Device,
    Feed,
    Hookup,
    Join,
    LoadName,
    Path,
    Point,
    Want,
    position_text,
)
from setday.switching.hunt import Difficulty, HuntGround, Planted, Score
from setday.switching.judging import Judgment, Mend, judge
from setday.switching.kinds import (
    BARE,
    GREEN,
    DeviceKind,
    cable_kind,
    cable_kinds,
    contacts_closed,
    position_words,
    shape_of,
)
from setday.switching.observation import (
    Flip,
    Measure,
    Measured,
    Meter,
    Observation,
    Reading,
    Seen,
    Test,
    test_words,
)
from setday.switching.planning import Plan, conductor_feet, plan
from setday.switching.rulebook import largest_breaker_a, ohm_per_ft, switching_rules, volume_each_in3
from setday.switching.sense import check
from setday.switching.trial import Breaker, LoadSeen, Look, PositionTried, Trial, look_of, try_hookup

__all__ = [
    "BARE",
    "CAUTIONS",
    "FEED",
    "GREEN",
    "PANEL",
    "Answers",
    "BestTree",
    "Box",
    "Breaker",
    "Cable",
    "Change",
    "ChangeKind",
    "Circuit",
    "Device",
    "DeviceKind",
    "Diagnosis",
    "Difficulty",
    "Duties",
    "Duty",
    "Feed",
    "Flip",
    "Hookup",
    "HuntGround",
    "Join",
    "Judgment",
    "LoadName",
    "LoadSeen",
    "Look",
    "Measure",
    "Measured",
    "Mend",
    "Meter",
    "Observation",
    "Path",
    "Plan",
    "Planted",
    "Point",
    "PositionTried",
    "Proposal",
    "Reading",
    "Score",
    "Seen",
    "Suspect",
    "Test",
    "Trial",
    "Want",
    "answers",
    "best_tree",
    "box_fill",
    "box_volume_in3",
    "cable_kind",
    "cable_kinds",
    "catalog",
    "check",
    "code_findings",
    "conductor_feet",
    "contacts_closed",
    "diagnose",
    "distinct",
    "duties_of",
    "efforts",
    "every_change",
    "every_position",
    "fill_working",
    "groups_of",
    "hunt_lengths",
    "judge",
    "largest_breaker_a",
    "lay_out",
    "look_of",
    "most_conductors",
    "observation_of",
    "ohm_per_ft",
    "plan",
    "position_text",
    "position_words",
    "shape_of",
    "switching_rules",
    "test_words",
    "try_hookup",
    "volume_each_in3",
    "weight_of",
]

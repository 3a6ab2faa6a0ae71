"""What may be covered: gates of surfaces, check-offs and confirmations, and the record of what is inside."""

from setday.closein.added import Added, add, strike
from setday.closein.asked import Asked, ask
from setday.closein.blocking import BlockingFor, usual_spot
from setday.closein.closing import close, reopen
from setday.closein.gate import Gate, GateState, ItemState, Stand
from setday.closein.gates import Astray, Gates, WhyAstray, gates_of
from setday.closein.inspections import Inspection, inspection_items, inspections
from setday.closein.item import WHOLE_HOUSE, Item, ItemKind, Spot, items_of_trades
from setday.closein.making import check_off, confirm, overrule, refuse, take_back, withdraw
from setday.closein.marks import Mark, MarkKind, Role, Signer
from setday.closein.record import BehindItem, BehindRecord, behind_record, record_document, record_from
from setday.closein.refusal import GateRefusal
from setday.closein.rulebook import RULE_TABLES, gate_rules
from setday.closein.standing import GateStanding, standings_of

__all__ = [
    "RULE_TABLES",
    "WHOLE_HOUSE",
    "Added",
    "Asked",
    "Astray",
    "BehindItem",
    "BehindRecord",
    "BlockingFor",
    "Gate",
    "GateRefusal",
    "GateStanding",
    "GateState",
    "Gates",
    "Inspection",
    "Item",
    "ItemKind",
    "ItemState",
    "Mark",
    "MarkKind",
    "Role",
    "Signer",
    "Spot",
    "Stand",
    "WhyAstray",
    "add",
    "ask",
    "behind_record",
    "check_off",
    "close",
    "confirm",
    "gate_rules",
    "gates_of",
    "inspection_items",
    "inspections",
    "items_of_trades",
    "overrule",
    "record_document",
    "record_from",
    "refuse",
    "reopen",
    "standings_of",
    "strike",
    "take_back",
    "usual_spot",
    "withdraw",
]

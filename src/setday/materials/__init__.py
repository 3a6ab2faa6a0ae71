"""Materials: the price list, the buying list, stock on hand, and cutting plans for lengths."""

from setday.materials.buying import Bought, BuyingLine, BuyingList, Delivery, Drop, Share
from setday.materials.coils import CoilCut, CoilPlan, CoilPlans, cable_item, coil_plans
from setday.materials.cutting import cutting_plan, first_fit_plan, plan_cost
from setday.materials.deliveries import loaded
from setday.materials.lengths import (
    Certificate,
    CutPiece,
    CutStick,
    CuttingPlan,
    LengthBound,
    LengthDemand,
    LengthOutcome,
    LengthProblem,
    Objective,
    StockLength,
)
from setday.materials.ordering import buying_list
from setday.materials.prices import PIECES, PriceItem, PriceList, write_money
from setday.materials.quantity import write_quantity
from setday.materials.serving import boards_offered, lengths_offered, plan_needs
from setday.materials.stock import StockItem
from setday.materials.verify import check_bound, verify
from setday.materials.waste import waste_rules

__all__ = [
    "PIECES",
    "Bought",
    "BuyingLine",
    "BuyingList",
    "Certificate",
    "CoilCut",
    "CoilPlan",
    "CoilPlans",
    "CutPiece",
    "CutStick",
    "CuttingPlan",
    "Delivery",
    "Drop",
    "LengthBound",
    "LengthDemand",
    "LengthOutcome",
    "LengthProblem",
    "Objective",
    "PriceItem",
    "PriceList",
    "Share",
    "StockItem",
    "StockLength",
    "boards_offered",
    "buying_list",
    "cable_item",
    "check_bound",
    "coil_plans",
    "cutting_plan",
    "first_fit_plan",
    "lengths_offered",
    "loaded",
    "plan_cost",
    "plan_needs",
    "verify",
    "waste_rules",
    "write_money",
    "write_quantity",
]

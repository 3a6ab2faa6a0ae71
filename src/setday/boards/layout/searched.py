"""One group as the process of the compiled search holds it."""

from setday.boards.layout import kernel
from setday.boards.layout.flat import Flat
from setday.boards.layout.hanging import Hanging, Snapshot
from setday.boards.layout.memory import BETTERED, FINISHING
from setday.boards.layout.pricing import Pricer
from setday.boards.layout.searching import Job, Part
from setday.boards.layout.worth import worth

__all__ = ["Searched"]


class Searched:
    """One group in arrays, and what was told of it.

    Parameters
    ----------
    part : Part
    """

    def __init__(self, part: Part) -> None:
        pricer = Pricer(part.network.items, part.boards, trim=part.trim)
        hanging = Hanging(part.network, pricer, worth(pricer, part.values, 1.0))
        self.flat = Flat(hanging, part.values, boards=len(part.start.fillings), seed=part.seed)
        self.flat.load(part.start)
        kernel.begin(self.flat.m, self.flat.v)
        self.told = int(self.flat.m[BETTERED])

    def run(self, job: Job) -> Snapshot | None:
        """Do a job; return the best layout when it is new."""
        flat = self.flat
        if job.values is not None:
            flat.judge_by(job.values)
        if job.start is not None:
            flat.load(job.start)
        flat.price_joints(job.joint_price)
        flat.m[FINISHING] = job.finishing
        kernel.begin(flat.m, flat.v)
        kernel.rounds(flat.m, flat.v, job.rounds, job.heat)
        if int(flat.m[BETTERED]) == self.told:
            return None
        self.told = int(flat.m[BETTERED])
        return flat.best()

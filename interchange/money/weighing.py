"""An ad as questions weigh it: each form it may have with its share and plan, and what any plan for it comes to.

Weighed with their shares the forms come to the mean of the bill. A form that does not go in has price and haul lost, and the work
is then done with another: what that takes is what the forms that go in take on the average, as in the bill.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from interchange.money.bill import NOT_IN, ONCE, Outcome
from interchange.money.rank import bill_among, leftovers_of

if TYPE_CHECKING:
    from interchange.fit.report import Plan
    from interchange.fit.setting import DeadSeat
    from interchange.money.bill import Bill
    from interchange.money.rank import Candidate, Entry


class Form(NamedTuple):
    """One form the unit of an ad may have."""

    candidate: Candidate
    plan: Plan
    share: float


class Weighing:
    """One ad for one dead unit."""

    def __init__(self, seat: DeadSeat, entry: Entry) -> None:
        self.seat, self.entry = seat, entry
        self._left = leftovers_of(entry.read, [seat])
        whole = sum(outcome.share for outcome in entry.outcomes) or 1.0
        pairs = zip(entry.candidates, entry.outcomes, strict=True)
        self.forms = [Form(candidate, outcome.plan, outcome.share / whole) for candidate, outcome in pairs]
        self._another = self._with_another()

    def cents(self, plan: Plan) -> float:
        """What the ad is expected to come to, were it done by this plan and no other form possible."""
        bill = self._bill((Outcome(1.0, plan),))
        return bill.mean_cents if plan.feasible else bill.mean_cents + self._another

    def mean_if(self, good: float) -> float:
        """What it is expected to come to, were the unit good with this chance."""
        entry = self.entry._replace(health=self.entry.health._replace(chance=good))
        return bill_among(self.seat, entry, entry.fetch.line, 1, self._left).mean_cents

    def _bill(self, outcomes: tuple[Outcome, ...]) -> Bill:
        return bill_among(self.seat, self.entry._replace(outcomes=outcomes), self.entry.fetch.line, 1, self._left)

    def _with_another(self) -> float:
        """What the work takes with another unit, where this one does not go in."""
        going = [form for form in self.forms if form.plan.feasible]
        share = sum(form.share for form in going) or 1.0
        return sum(
            form.share / share * line.mean_cents
            for form in going
            for line in self._bill((Outcome(1.0, form.plan),)).lines
            if line.label not in (*ONCE, NOT_IN)
        )

"""The two ends of a joint compared, and the rows of adapters between them, found once for all plans of a case."""

from __future__ import annotations

from interchange.catalog.features import SEAT
from interchange.catalog.figure import Figure
from interchange.catalog.kind_rules import feature_type
from interchange.catalog.model import PATTERN_FEATURE, Joint
from interchange.fit.case import CORE, OWN_PREFIX, Case
from interchange.fit.chain import Chain, chains
from interchange.fit.finding import AGREES, NOT_KNOWN, Finding, joined
from interchange.fit.pattern import compare_patterns
from interchange.fit.shaft import compare_shafts

TORQUE = f"{CORE}.torque"
SEAT_TORQUE = f"{SEAT}.torque"


def compare_ends(case: Case, name: str, joint: Joint, a: Figure | None, b: Figure | None) -> Finding:
    """Whether two faces or shafts go together in the joint of this name; where sources differ, all have to say the same."""
    if a is None or b is None:
        lacking = [end for end, figure in zip(joint.between, (a, b), strict=True) if figure is None]
        return Finding(NOT_KNOWN, " and ".join(map(spoken, lacking)) + " not known")
    findings = [_compared(case, name, joint, one.ref, other.ref) for one in a.readings for other in b.readings]
    caveat = joined(*dict.fromkeys((findings[0].caveat, a.caveat, b.caveat)))
    if len({finding.state for finding in findings}) > 1:
        return Finding(NOT_KNOWN, findings[0].text, caveat)
    return findings[0]._replace(caveat=caveat, chance=findings[0].chance if len(findings) == 1 else None)


def state_of_ends(case: Case, name: str, joint: Joint, a: Figure, b: Figure) -> str:
    """Only whether they go together, which is found far sooner than all there is to say of two faces that do not."""
    states = {_state(case, name, joint, one.ref, other.ref) for one in a.readings for other in b.readings}
    return states.pop() if len(states) == 1 else NOT_KNOWN


def rows_of_adapters(case: Case, name: str, joint: Joint, ends: tuple[str, str]) -> tuple[Chain, ...]:
    """The rows of adapters between two faces or shafts."""
    key = (name, *ends)
    known = case.memory.chains.get(key)
    if known is None:
        there = [adapter for adapter in case.adapters if adapter.joint == name]

        def mates(one: str, other: str) -> bool:
            return _state(case, name, joint, one, other) == AGREES

        known = case.memory.chains[key] = tuple(chains(there, ends, joint.most_adapters, mates))
    return known


def _compared(case: Case, name: str, joint: Joint, a: str, b: str) -> Finding:
    key = (name, a, b, case.explain)
    known = case.memory.findings.get(key)
    if known is None:
        known = case.memory.findings[key] = _compare(case, joint, a, b, explain=case.explain)
    return known


def _state(case: Case, name: str, joint: Joint, a: str, b: str) -> str:
    key = (name, a, b)
    known = case.memory.states.get(key)
    if known is None:
        known = case.memory.states[key] = _compare(case, joint, a, b, explain=False).state
    return known


def _compare(case: Case, joint: Joint, a: str, b: str, *, explain: bool) -> Finding:
    type_ = feature_type(case.kind, joint.between[0])
    if type_ and type_.name == PATTERN_FEATURE:
        one, other = case.pattern(a), case.pattern(b)
        if one and other:
            return compare_patterns(one, other, joint, _torque_needed_nm(case), explain=explain)
    else:
        shaft, taker = case.shaft(a), case.shaft(b)
        if shaft and taker:
            return compare_shafts(shaft, taker, case.pattern, joint)
    return Finding(NOT_KNOWN, f"{a} or {b} is not in the catalog")


def _torque_needed_nm(case: Case) -> float | None:
    """What the drive has to carry: what the machine asks for, or else what the dead unit gave; None where neither is known."""
    torque = case.seat.get(SEAT_TORQUE) or case.own.get(TORQUE)
    return max(reading.value for reading in torque.readings) if torque else None


def spoken(path: str) -> str:
    """A feature's path in words; what belongs to the core or the machine is called by its own name."""
    plain = path.removeprefix(OWN_PREFIX).removeprefix(f"{SEAT}.").removeprefix(f"{CORE}.")
    return ("own " if path.startswith(OWN_PREFIX) else "") + plain.replace(".", " ").replace("_", " ")

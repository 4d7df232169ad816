"""Every rating of own truck and trailer against a load, and the one that binds: the lowest wins."""

from __future__ import annotations

from fractions import Fraction
from math import inf
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from interchange.haul.rig import Rig, Trailer, Vehicle

TRAILER, TOW, HITCH, TONGUE, BALL, COUPLER = "trailer GVWR", "tow rating", "hitch", "hitch tongue weight", "ball", "coupler"
BALL_SIZE, CLASS, CHAINS, COMBINED, TRUCK = "ball size", "hitch class", "safety chains", "GCWR", "truck GVWR"
REAR_AXLE, REAR_TYRES, AXLES, TYRES = "rear axle", "rear tyres", "trailer axles", "trailer tyres"
TIE_DOWNS, LONG, WIDE = "tie-downs", "deck length", "deck width"
"""Each limit by its name."""

TONGUE_LOW, TONGUE_HIGH = 0.10, 0.15
"""Share of the loaded trailer on the hitch, from three US vehicle makers' manuals. The vehicle's own outranks it."""
SAME_BALL_IN = 0.01
"""Sizes of balls differ by an eighth of an inch and more; less than this is the way they were written."""
LEAST_TIE_DOWNS = 4
MOST_LB = 200_000
TIE_DOWN_SHARE = 0.5
"""At least four tie-downs, whose working loads together are at least half the weight: published rule."""


class HitchClass(NamedTuple):
    """A class of SAE J684: heaviest loaded trailer, smallest ball, breaking load of the chains."""

    name: str
    most_trailer_lb: float
    least_ball_in: float | None
    chain_lb: float | None


HITCH_CLASSES = (
    HitchClass("class 1", 2000, 1.875, 2000),
    HitchClass("class 2", 3500, 2.0, 3500),
    HitchClass("class 3", 5000, 2.0, 5000),
    HitchClass("class 4", 10000, None, None),
)
"""SAE J684 as cited by two or three sources. Class 4 takes a ball that suits the coupler and chains as strong as the
trailer is rated; heavier trailers are commercial and outside the standard."""

CAUTIONS = (
    "The vehicle's manual and the plates on truck, hitch, ball and trailer outrank every figure here.",
    "Brakes, lights, licence, permits and tie-down rules are local law: ask before driving.",
    "Load so that a tenth to a seventh of the trailer's weight bears on the hitch; too little and it sways.",
    "Cross the safety chains under the tongue; a tyre older or softer than its rating carries less than it says.",
    "Drain fluids, lower what can fall, and tie the machine itself, not its attachments.",
)


class Limit(NamedTuple):
    """One rating against what this load puts on it; `ok` is None where the answer is not known or depends."""

    name: str
    rating_lb: float | None
    load_lb: float | None
    ok: bool | None
    note: str


def limits(
    rig: Rig, load_lb: float | None, *, length_in: float | None = None, width_in: float | None = None
) -> tuple[Limit, ...]:
    """Every limit of the rig for a load of this weight (None: not known) and size, in the order of checking."""
    vehicle, trailer = rig.vehicle, rig.trailer
    if trailer is None:
        return (
            *_truck(vehicle, _sum(load_lb), _sum(load_lb)),
            *_rear_in_bed(vehicle, load_lb),
            _tie_downs(vehicle.tie_downs, vehicle.tie_down_lb, load_lb),
            *_deck(vehicle.bed_length_in, vehicle.bed_width_in, length_in, width_in),
        )
    rolling_lb = _sum(trailer.own_lb, load_lb)
    least_lb = (trailer.own_lb or 0.0) + (load_lb or 0.0)
    tongue_low_lb, tongue_high_lb = _times(rolling_lb, TONGUE_LOW), _times(rolling_lb, TONGUE_HIGH)
    return (
        _most(TRAILER, trailer.gvwr_lb, rolling_lb, least_lb, _payload(trailer)),
        *_on_wheels(AXLES, trailer.axles, trailer.axle_lb, rolling_lb),
        *_on_wheels(TYRES, trailer.tyres, trailer.tyre_lb, rolling_lb),
        _most(TOW, vehicle.tow_lb, rolling_lb, least_lb, "loaded trailer, from the vehicle manual"),
        _most(HITCH, vehicle.hitch_lb, rolling_lb, least_lb, "loaded trailer, stamped on the hitch"),
        _tongue(TONGUE, vehicle.hitch_tongue_lb, 0.0, rolling_lb, 1.0),
        _most(BALL, vehicle.ball_lb, rolling_lb, least_lb, "loaded trailer; the stamp on the ball governs"),
        _most(COUPLER, trailer.coupler_lb, rolling_lb, least_lb, "loaded trailer, stamped on the coupler"),
        _ball_size(vehicle.ball_in, trailer.coupler_in),
        _hitch_class(vehicle.ball_in, rolling_lb),
        *_chains(trailer, rolling_lb),
        _combined(vehicle, rolling_lb),
        *_truck(vehicle, tongue_low_lb, tongue_high_lb),
        *_rear(vehicle, rolling_lb),
        _tie_downs(trailer.tie_downs, trailer.tie_down_lb, load_lb),
        *_deck(trailer.deck_length_in, trailer.deck_width_in, length_in, width_in),
    )


def binding(checked: tuple[Limit, ...]) -> Limit | None:
    """The tightest limit: the one most overrun, else the one nearest its rating; None if nothing can be told."""
    known = [limit for limit in checked if limit.ok is False or (limit.ok and _strain(limit) > 0)]
    return max(known, key=lambda limit: (limit.ok is False, _strain(limit)), default=None)


def allowed(checked: tuple[Limit, ...]) -> bool | None:
    """Whether all limits hold: False if one is broken, None if one is not known or depends."""
    answers = {limit.ok for limit in checked}
    if False in answers:
        return False
    return None if None in answers else True


def to_check(checked: tuple[Limit, ...]) -> str:
    """What to look up on which plate before the rig may be relied on; empty if nothing is open."""
    names = ", ".join(limit.name for limit in checked if limit.ok is None)
    return f"check the plate: {names}" if names else ""


def heaviest_lb(rig: Rig) -> float | None:
    """The heaviest load, in whole pounds, for which every limit that goes by weight surely holds; None if there is none."""
    least, most = -1, MOST_LB
    while least < most:
        middle = (least + most + 1) // 2
        if allowed(limits(rig, float(middle))):
            least = middle
        else:
            most = middle - 1
    return float(least) if least >= 0 else None


def trailer_room(vehicle: Vehicle, tongue_share: float = TONGUE_LOW) -> tuple[Limit, ...]:
    """The heaviest loaded trailer by each rating of the truck whose figures are known, lightest first.

    `tongue_share` of the trailer bears on the hitch. The rating found stands in `rating_lb`.
    """
    aboard_lb = _sum(vehicle.curb_lb, vehicle.aboard_lb)
    spare_lb = _less(vehicle.gvwr_lb, aboard_lb)
    axle_lb = _less(vehicle.rear_axle_lb, vehicle.rear_axle_own_lb)
    lever = vehicle.rear_axle_leverage
    rooms = (
        (TOW, vehicle.tow_lb),
        (HITCH, vehicle.hitch_lb),
        (TONGUE, _over(vehicle.hitch_tongue_lb, tongue_share)),
        (BALL, vehicle.ball_lb),
        (COMBINED, _less(vehicle.gcwr_lb, aboard_lb)),
        (TRUCK, _over(spare_lb, tongue_share)),
        (REAR_AXLE, None if lever is None else _over(axle_lb, tongue_share * lever)),
    )
    known = [(room_lb, name) for name, room_lb in rooms if room_lb is not None]
    return tuple(Limit(name, room_lb, None, None, f"{tongue_share:.0%} on the hitch") for room_lb, name in sorted(known))


def hitch_class(trailer_lb: float) -> HitchClass | None:
    """The class of SAE J684 for a loaded trailer of this weight; None if it is beyond the standard."""
    return next((each for each in HITCH_CLASSES if trailer_lb <= each.most_trailer_lb), None)


def _most(name: str, rating_lb: float | None, load_lb: float | None, least_lb: float, note: str) -> Limit:
    """A plain upper limit. What is surely there already may break it even where the whole is not known."""
    if rating_lb is None:
        return Limit(name, None, load_lb, None, f"not known: {note}")
    if load_lb is None:
        if least_lb > rating_lb:
            return Limit(name, rating_lb, least_lb, False, f"{note}; more than its rating already")
        return Limit(name, rating_lb, None, None, f"the weight is not known: {note}")
    return Limit(name, rating_lb, load_lb, load_lb <= rating_lb, note)


def _tongue(name: str, rating_lb: float | None, before_lb: float | None, rolling_lb: float | None, lever: float) -> Limit:
    """A limit on what the tongue puts on it: holds at 15 %, breaks at 10 %, in between it depends on the loading."""
    if rating_lb is None or before_lb is None or rolling_lb is None:
        return Limit(name, rating_lb, None, None, "not known")
    low_lb, high_lb = (before_lb + rolling_lb * share * lever for share in (TONGUE_LOW, TONGUE_HIGH))
    if low_lb > rating_lb:
        return Limit(name, rating_lb, low_lb, False, "even with only 10 % of the trailer on the hitch")
    if high_lb <= rating_lb:
        return Limit(name, rating_lb, high_lb, True, "with 15 % of the trailer on the hitch")
    most_lb = (rating_lb - before_lb) / lever
    return Limit(name, rating_lb, high_lb, None, f"only while the tongue stays under {most_lb:.0f} lb: weigh it")


def _combined(vehicle: Vehicle, rolling_lb: float | None) -> Limit:
    whole_lb = _sum(vehicle.curb_lb, vehicle.aboard_lb, rolling_lb)
    least_lb = sum(part for part in (vehicle.curb_lb, vehicle.aboard_lb, rolling_lb) if part is not None)
    return _most(COMBINED, vehicle.gcwr_lb, whole_lb, least_lb, "truck, what is aboard, trailer and load together")


def _truck(vehicle: Vehicle, low_lb: float | None, high_lb: float | None) -> tuple[Limit, ...]:
    """What the truck itself carries: what is aboard and the tongue (10 to 15 %), or the load in the bed."""
    spares = [vehicle.payload_lb, _less(vehicle.gvwr_lb, vehicle.curb_lb)]
    rating_lb = min((spare for spare in spares if spare is not None), default=None)
    aboard_lb = vehicle.aboard_lb
    name, against = TRUCK, "payload against load or tongue, and what is aboard"
    if rating_lb is None:
        return (Limit(name, None, None, None, "not known: GVWR and curb weight, or the payload sticker"),)
    if low_lb is not None and low_lb + (aboard_lb or 0.0) > rating_lb:
        return (Limit(name, rating_lb, low_lb + (aboard_lb or 0.0), False, against),)
    if low_lb is None or high_lb is None:
        return (Limit(name, rating_lb, None, None, "the weight is not known"),)
    if aboard_lb is None:
        return (Limit(name, rating_lb, None, None, "not known: what people and tools aboard weigh"),)
    if low_lb == high_lb or high_lb + aboard_lb <= rating_lb:
        return (Limit(name, rating_lb, high_lb + aboard_lb, high_lb + aboard_lb <= rating_lb, against),)
    note = f"only while the tongue stays under {rating_lb - aboard_lb:.0f} lb: weigh it"
    return (Limit(name, rating_lb, high_lb + aboard_lb, None, note),)


def _payload(trailer: Trailer) -> str:
    """What the trailer's gross rating is against, and what is left of it for the load."""
    room_lb = _less(trailer.gvwr_lb, trailer.own_lb)
    note = "trailer and load together"
    return note if room_lb is None else f"{note}; it may carry {room_lb:,.0f} lb"


def _rear_ratings(vehicle: Vehicle) -> tuple[tuple[str, float], ...]:
    """Rear axle and rear tyres, only where they are stated: few know them, and the payload sticker allows for them in part."""
    tyres_lb = _each(vehicle.rear_tyres, vehicle.tyre_lb)
    rated = ((REAR_AXLE, vehicle.rear_axle_lb), (REAR_TYRES, tyres_lb))
    return tuple((name, rating_lb) for name, rating_lb in rated if rating_lb is not None)


def _rear(vehicle: Vehicle, rolling_lb: float | None) -> tuple[Limit, ...]:
    """What the tongue puts on the rear wheels, the hitch being behind them."""
    own_lb, lever = vehicle.rear_axle_own_lb, vehicle.rear_axle_leverage
    if lever is None:
        note = "not known: how far the hitch is behind the axle"
        return tuple(Limit(name, rating_lb, None, None, note) for name, rating_lb in _rear_ratings(vehicle))
    return tuple(_tongue(name, rating_lb, own_lb, rolling_lb, lever) for name, rating_lb in _rear_ratings(vehicle))


def _rear_in_bed(vehicle: Vehicle, load_lb: float | None) -> tuple[Limit, ...]:
    """A load in the bed, taken as bearing on the rear wheels whole: more than some of it does, so over is not yet broken."""
    found = []
    for name, rating_lb in _rear_ratings(vehicle):
        borne_lb = _sum(vehicle.rear_axle_own_lb, load_lb)
        if borne_lb is None:
            found.append(Limit(name, rating_lb, None, None, "not known"))
        else:
            ok = True if borne_lb <= rating_lb else None
            found.append(Limit(name, rating_lb, borne_lb, ok, "if the whole load bears on the rear wheels: weigh it"))
    return tuple(found)


def _on_wheels(name: str, count: int | None, each_lb: float | None, rolling_lb: float | None) -> tuple[Limit, ...]:
    """Axles or tyres of the trailer, which bear what the tongue does not: 85 to 90 %. Only where they are stated."""
    rating_lb = _each(count, each_lb)
    if rating_lb is None:
        return ()
    if rolling_lb is None:
        return (Limit(name, rating_lb, None, None, "the weight is not known"),)
    light_lb, heavy_lb = rolling_lb * (1 - TONGUE_HIGH), rolling_lb * (1 - TONGUE_LOW)
    if light_lb > rating_lb:
        return (Limit(name, rating_lb, light_lb, False, "even with 15 % of the trailer on the hitch"),)
    if heavy_lb <= rating_lb:
        return (Limit(name, rating_lb, heavy_lb, True, "with 10 % of the trailer on the hitch"),)
    return (Limit(name, rating_lb, heavy_lb, None, f"only while the tongue bears {rolling_lb - rating_lb:,.0f} lb: weigh it"),)


def _chains(trailer: Trailer, rolling_lb: float | None) -> tuple[Limit, ...]:
    """Breaking load of the safety chains against what the class asks, only where it is stated."""
    if trailer.chains_lb is None:
        return ()
    if rolling_lb is None:
        return (Limit(CHAINS, trailer.chains_lb, None, None, "the weight is not known"),)
    needed = hitch_class(rolling_lb)
    asked_lb = needed.chain_lb if needed and needed.chain_lb else max(trailer.gvwr_lb or 0.0, rolling_lb)
    note = "breaking load, against what SAE J684 asks of such a trailer"
    return (Limit(CHAINS, trailer.chains_lb, asked_lb, asked_lb <= trailer.chains_lb, note),)


def _ball_size(ball_in: float | None, coupler_in: float | None) -> Limit:
    if ball_in is None or coupler_in is None:
        return Limit(BALL_SIZE, None, None, None, "not known: ball and coupler must be of one size")
    if abs(ball_in - coupler_in) > SAME_BALL_IN:
        return Limit(BALL_SIZE, None, None, False, f"a {inches(ball_in)} in ball in a {inches(coupler_in)} in coupler: never")
    return Limit(BALL_SIZE, None, None, True, f"ball and coupler both {inches(ball_in)} in")


def _hitch_class(ball_in: float | None, rolling_lb: float | None) -> Limit:
    """What the standard asks of a trailer so heavy. No rating of the rig, so it never is the tightest by weight."""
    name = CLASS
    if rolling_lb is None:
        return Limit(name, None, None, None, "the weight is not known")
    needed = hitch_class(rolling_lb)
    if needed is None:
        return Limit(name, None, rolling_lb, None, "beyond SAE J684: a commercial hitch, look it up")
    if needed.least_ball_in is None:
        note = f"{needed.name} of SAE J684: ball to suit the coupler, chains as strong as the trailer is rated"
        return Limit(name, None, rolling_lb, True, note)
    note = f"{needed.name} of SAE J684: ball of {inches(needed.least_ball_in)} in, chains of {needed.chain_lb:.0f} lb, or more"
    ok = None if ball_in is None else ball_in >= needed.least_ball_in - SAME_BALL_IN
    return Limit(name, None, rolling_lb, ok, note)


def _tie_downs(count: int | None, each_lb: float | None, load_lb: float | None) -> Limit:
    """At least four, and together good for half the weight."""
    name = TIE_DOWNS
    if count is not None and count < LEAST_TIE_DOWNS:
        return Limit(name, None, None, False, f"{count} tie-downs; at least {LEAST_TIE_DOWNS} are needed")
    if count is None or each_lb is None:
        return Limit(name, None, None, None, "not known: how many, and the working load on their tags")
    if load_lb is None:
        return Limit(name, count * each_lb, None, None, "the weight is not known")
    needed_lb = load_lb * TIE_DOWN_SHARE
    held = needed_lb <= count * each_lb
    return Limit(name, count * each_lb, needed_lb, held, "working loads together against half the weight")


def _deck(
    deck_length_in: float | None, deck_width_in: float | None, length_in: float | None, width_in: float | None
) -> tuple[Limit, ...]:
    """Length and width, where the load's are known; a load longer than the deck is not broken, it needs a look."""
    found = []
    if length_in is not None:
        if deck_length_in is None:
            found.append(Limit(LONG, None, None, None, "not known"))
        else:
            fits = length_in <= deck_length_in
            note = f"{length_in:.0f} in on a {deck_length_in:.0f} in deck"
            note = note if fits else f"{note}: it hangs over"
            found.append(Limit(LONG, None, None, fits or None, note))
    if width_in is not None:
        if deck_width_in is None:
            found.append(Limit(WIDE, None, None, None, "not known"))
        else:
            fits = width_in <= deck_width_in
            found.append(Limit(WIDE, None, None, fits, f"{width_in:.0f} in on {deck_width_in:.0f} in"))
    return tuple(found)


def inches(size_in: float) -> str:
    """Inches as balls are sold: 2-5/16."""
    sixteenths = round(size_in * 16)
    whole, part = divmod(sixteenths, 16)
    if abs(sixteenths / 16 - size_in) > SAME_BALL_IN or not part:
        return f"{size_in:g}"
    return f"{whole}-{Fraction(part, 16)}" if whole else f"{Fraction(part, 16)}"


def _strain(limit: Limit) -> float:
    """Load over rating; without figures, endless if broken and nothing if not. A deck too narrow is mended before a weight is."""
    if limit.name == WIDE and limit.ok is False:
        return 1.0
    if not limit.rating_lb or limit.load_lb is None:
        return inf if limit.ok is False else 0.0
    return limit.load_lb / limit.rating_lb


def _sum(*parts: float | None) -> float | None:
    """All together; not known if one is not."""
    known = [part for part in parts if part is not None]
    return sum(known) if len(known) == len(parts) else None


def _each(count: int | None, each_lb: float | None) -> float | None:
    """So many of one rating together."""
    return None if count is None or each_lb is None else count * each_lb


def _less(whole: float | None, part: float | None) -> float | None:
    return None if whole is None or part is None else whole - part


def _times(amount: float | None, share: float) -> float | None:
    return None if amount is None else amount * share


def _over(amount: float | None, share: float) -> float | None:
    return None if amount is None else amount / share

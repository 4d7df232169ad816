"""What would mend a limit of the rig that is broken, or settle one that is not known, in words."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from interchange.haul import limits as of

if TYPE_CHECKING:
    from interchange.haul.limits import Limit
    from interchange.haul.rig import Rig, Trailer, Vehicle

LOOK_UP = {
    of.TRAILER: "read the trailer's plate, and weigh it empty",
    of.TOW: "look it up in the vehicle's manual",
    of.HITCH: "read the stamp on the hitch",
    of.TONGUE: "read the stamp on the hitch",
    of.BALL: "read the stamp on top of the ball",
    of.COUPLER: "read the stamp on the coupler",
    of.BALL_SIZE: "read the ball and the coupler, or measure the ball",
    of.CLASS: "read the ball",
    of.COMBINED: "look it up in the vehicle's manual, and weigh the truck with what rides along",
    of.TRUCK: "read the door plate and the payload sticker, and weigh what rides along",
    of.REAR_AXLE: "weigh the rear axle; measure from axle to axle and from the rear axle to the ball",
    of.REAR_TYRES: "weigh the rear axle; measure from axle to axle and from the rear axle to the ball",
    of.TIE_DOWNS: "count them and read the working load on their tags",
    of.LONG: "measure the deck",
    of.WIDE: "measure the deck",
}
"""Where an answer that is not known is to be found."""
FIND_WEIGHT = "find out what the load weighs"
LIGHTER_TONGUE = "weigh the tongue; load farther back, though never under a tenth on the hitch"


def mend(limit: Limit, rig: Rig, load_lb: float | None) -> str:
    """What would make this limit hold for a load of this weight, or what to look up; nothing where it holds."""
    if limit.ok:
        return ""
    weighed = limit.name not in (of.BALL_SIZE, of.LONG, of.WIDE)
    if limit.ok is None and load_lb is None and weighed:
        return FIND_WEIGHT if limit.rating_lb is not None or limit.name == of.CLASS else LOOK_UP[limit.name]
    if limit.ok is None and _unknown(limit):
        return LOOK_UP.get(limit.name, FIND_WEIGHT)
    if limit.name in (of.TIE_DOWNS, of.LONG, of.WIDE):
        return _about_load(limit, rig)
    if rig.trailer is None:
        return _in_bed(limit)
    return _behind(limit, rig.vehicle, rig.trailer)


def _unknown(limit: Limit) -> bool:
    """Whether a figure is missing, rather than the answer hanging on how it is loaded."""
    if limit.name == of.LONG:
        return limit.note == "not known"
    if limit.name == of.CLASS:
        return "beyond" not in limit.note
    return limit.rating_lb is None or limit.load_lb is None


def _behind(limit: Limit, vehicle: Vehicle, trailer: Trailer) -> str:
    """For what the loaded trailer is against."""
    load_lb, rating_lb = limit.load_lb or 0.0, limit.rating_lb or 0.0
    more, less = f"{load_lb:,.0f} lb or more", f"{_up(load_lb - rating_lb):,.0f} lb less"
    size_in = trailer.coupler_in or vehicle.ball_in
    ball = f"a {of.inches(size_in)} in ball" if size_in else "a ball of the coupler's size"
    match limit.name:
        case of.TRAILER:
            return f"{less} on the trailer, or a trailer rated {more}"
        case of.AXLES | of.TYRES:
            more_on_hitch = "" if limit.ok is False else "; or a heavier tongue, as far as the hitch allows it"
            return f"{less} on the trailer{more_on_hitch}; better tyres raise no plate"
        case of.TOW:
            return f"{less} behind the truck, or another truck: no hitch raises it"
        case of.HITCH:
            return f"a hitch rated {more}, where the truck's own rating allows it"
        case of.TONGUE:
            return LIGHTER_TONGUE if limit.ok is None else f"a hitch rated for a tongue of {more}, or a lighter load"
        case of.BALL:
            return f"{ball} rated {more}"
        case of.COUPLER:
            return f"a coupler rated {more}, and a ball of its size"
        case of.BALL_SIZE:
            rated = f" rated {trailer.coupler_lb:,.0f} lb, as the coupler is" if trailer.coupler_lb else ", rated for the trailer"
            return f"{ball}{rated}"
        case of.CLASS:
            return _class(load_lb)
        case of.CHAINS:
            return f"chains that break at {more}"
        case of.COMBINED:
            return f"{less} in all, on the trailer or aboard"
    if limit.ok is None:  # truck, its rear axle and its tyres feel the tongue
        return LIGHTER_TONGUE
    return f"{less} aboard or on the tongue" if limit.name == of.TRUCK else f"{less} on the rear wheels: a lighter trailer or bed"


def _class(rolling_lb: float) -> str:
    needed = of.hitch_class(rolling_lb)
    if needed is None or needed.least_ball_in is None:
        return "a hitch made and stamped for such a trailer, by its own papers"
    return f"a ball of {of.inches(needed.least_ball_in)} in or more, and a coupler of its size"


def _in_bed(limit: Limit) -> str:
    over_lb = _up((limit.load_lb or 0.0) - (limit.rating_lb or 0.0))
    if limit.ok is None:
        return "set it ahead of the rear axle, and weigh the axle"
    return f"{over_lb:,.0f} lb less in the bed or aboard, or a trailer"


def _about_load(limit: Limit, rig: Rig) -> str:
    """For what is against the load itself: what ties it and what it stands on."""
    if limit.name == of.LONG:
        return "let it hang over no farther than local law allows and mark it, or a longer deck"
    if limit.name == of.WIDE:
        return "a wider deck, or one above the wheels"
    holder = rig.trailer or rig.vehicle
    count, each_lb = holder.tie_downs or 0, holder.tie_down_lb
    short = max(0, of.LEAST_TIE_DOWNS - count)
    if limit.load_lb is None or limit.rating_lb is None or not each_lb:
        return f"{short} more" if short else LOOK_UP[of.TIE_DOWNS]
    more = max(short, ceil((limit.load_lb - limit.rating_lb) / each_lb))
    return f"{more} more of {each_lb:,.0f} lb working load, or stronger ones"


def _up(pounds: float) -> int:
    """Whole pounds, never too few."""
    return ceil(round(pounds, 3))

"""What sort of offer an ad makes of its subject: complete, a core, a parts machine."""

from __future__ import annotations

from collections.abc import Sequence

from interchange.ads.fields import Field, Span
from interchange.ads.subject import belongs_to_another
from interchange.ads.wording import Hit, Token

_MACHINE_OFFERS = ("parts_machine", "running_machine", "machine")
_RUNS = frozenset(["runs_and_drives", "cold_start_video", "runs_well", "runs"])
# Where several are said, the one that says most of what comes with it.
_ORDER = {
    "bare_block": 0, "short_block": 0, "long_block": 0, "drop_out": 1, "core": 2, "parts_machine": 3, "complete": 4, "part": 5,
    "running_machine": 6, "machine": 7,
}  # fmt: skip


def offer(
    text: str, words: Sequence[Token], offers: Sequence[Hit], sort: Field | None, phrases: Sequence[Hit], title: Span
) -> Field | None:
    """The word used for it, the title's before the body's; else what the subject and the words on its health make it."""
    kind = sort.value if sort else None
    fitting = []
    for hit in offers:
        in_title = title.start <= hit.span.start < title.end
        if not hit.negated and not belongs_to_another(words, hit.first) and _suits(hit.id, kind, in_title=in_title):
            fitting.append((not in_title, _ORDER.get(hit.id, 9), hit))
    if fitting:
        in_body, _, best = min(fitting, key=lambda one: (one[0], one[1], one[2].span))
        if best.id == "complete":  # "K425, COMPLETE ... Complete drop-out": the closer word
            in_body, _, best = next((one for one in fitting if one[2].id == "drop_out"), (in_body, 0, best))
        certainty = (0.65 if in_body else 0.9) * (0.7 if best.doubted else 1)
        return Field("offer", best.id, text[best.span.start : best.span.end], best.span, certainty)
    if sort is None or kind == "unit":
        return None
    value = "part" if kind == "part" else _machine_offer(text, phrases)
    return sort._replace(name="offer", value=value, certainty=sort.certainty * 0.8)


def _machine_offer(text: str, phrases: Sequence[Hit]) -> str:
    """A machine is running only where that is said of it, not of its engine alone."""
    said = [hit for hit in phrases if not hit.negated and not hit.doubted]
    if any(hit.id == "for_parts" for hit in said):
        return "parts_machine"
    runs = any(
        hit.id in _RUNS and "engine" not in (found := text[hit.span.start : hit.span.end].lower()) and "motor" not in found
        for hit in said
    )
    return "running_machine" if runs else "machine"


def _suits(offer_id: str, kind: object, *, in_title: bool) -> bool:
    """A word counts only where it can be said of the thing sold: a loader is no long block, a used starter no core."""
    if kind == "machine":
        return offer_id in _MACHINE_OFFERS or (offer_id == "part" and in_title)
    if kind == "unit":
        return offer_id not in _MACHINE_OFFERS
    return kind is None or offer_id == "part"

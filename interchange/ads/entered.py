"""What an ad says of the unit or machine it names, as facts for a catalog file. What the ad leaves open stays out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from interchange.ads.fields import AdReading, Field, ModelWord
from interchange.ads.pasted import Ad
from interchange.catalog.feature_lines import decided_by
from interchange.catalog.model import Kind
from interchange.catalog.plain_text import id_from
from interchange.catalog.stub import Facts, Said
from interchange.quantity import QuantityError, read_quantity

SURE_MODEL = 0.8
SURE_IN_BODY = 0.56  # what is found below the title is held for less certain
SAME = 0.02  # 3.3 L and 201 cu in are one figure written twice
MOST_ODD = 12
PART, MACHINE = "part", "machine"
DISPLACEMENT = "displacement"
# Field of an ad: (feature, its type, unit).
FIGURES = {
    "power_hp": ("power", "power", "hp"),
    "power_kw": ("power", "power", "kW"),
    "cylinders": ("cylinders", "count", ""),
    "litres": (DISPLACEMENT, DISPLACEMENT, "L"),
    "cubic_inches": (DISPLACEMENT, DISPLACEMENT, "cu in"),
    "volts": ("volts", "voltage", "V"),
    "weight_lb": ("weight", "mass", "lb"),
}
ROTATION = "rotation"
SEEN_RIGHT = re.compile(r"as seen from the (?:flywheel|rear|back|shaft end)")


class Named(NamedTuple):
    """What an ad calls its subject: the maker, where it says, and the model."""

    maker: str
    model: str

    @property
    def words(self) -> str:
        """Both, as people say it."""
        return f"{self.maker} {self.model}".strip()


def named_model(reading: AdReading) -> Named | None:
    """The model an ad names, the title's before the body's; None where it names none, or sells a loose part."""
    if reading.subject is not None and reading.subject.value == PART:
        return None
    words = reading.model_words
    models = [word for word in words if word.kind != "name" and word.certainty >= (SURE_MODEL if word.in_title else SURE_IN_BODY)]
    for word in sorted(models, key=lambda word: not word.in_title):
        maker = _maker_before(words, word)
        if maker or word.kind == "model":
            return Named(maker, word.text)
    return None


def _maker_before(words: tuple[ModelWord, ...], model: ModelWord) -> str:
    """The name that stands right before a model."""
    beside = [word for word in words if word.kind == "name" and word.span.end == model.span.start - 1]
    return beside[-1].text if beside else ""


def facts_of(ad: Ad, reading: AdReading, kind: Kind | None) -> Facts:
    """The facts of an ad: for a unit of this kind, or for a machine where there is no kind.

    The title is maker and model where the ad names them, else its first words. The id is empty where nothing makes one.
    """
    named = named_model(reading)
    source = f"ad {ad.id}" + (f", pasted {ad.on}" if ad.on else "")
    shown = reading.title.text.strip() if reading.title else ""
    aka = (named.model,) if named and named.maker and any(map(str.isalpha, named.model)) else ()
    figures = tuple(_unit_figures(reading, kind) if kind else _sizes(reading))
    told = {one.path for one in figures}
    return Facts(
        id_from([named.words]) if named else "",
        named.words if named else shown,
        named.maker if named else "",
        aka,
        source,
        figures,
        (f"From {source}: “{shown}”", *_odd(reading, kind, told)),
    )


def _sizes(reading: AdReading) -> Iterator[Said]:
    """What it says of a machine: its weight."""
    if reading.weight_lb is not None and reading.weight_lb.value:
        yield Said("weight", (f"{float(reading.weight_lb.value):g} lb",), _as_said(reading.weight_lb))


def _unit_figures(reading: AdReading, kind: Kind) -> Iterator[Said]:
    """Figures and words for features of a kind. A machine's weight is not its engine's."""
    found: dict[str, list[tuple[str, str]]] = {}
    for field in _fields(reading):
        path, value = _placed(field, kind)
        if path and value and value not in [known for known, _ in found.get(path, [])]:
            found.setdefault(path, []).append((value, _as_said(field)))
    types = {f"{slot}.{name}": type_ for slot, some in kind.slots.items() for name, type_ in some.items()}
    for path, said in found.items():
        kept = said if types[path].words else _apart(said, types[path].name)
        if kept:
            yield Said(path, tuple(value for value, _ in kept), "; ".join(remark for _, remark in kept))


def _fields(reading: AdReading) -> Iterator[Field]:
    yield from reading.said
    yield from filter(None, (reading.volts, reading.rotation))
    if reading.weight_lb is not None and not (reading.subject is not None and reading.subject.value == MACHINE):
        yield reading.weight_lb


def _placed(field: Field, kind: Kind) -> tuple[str, str]:
    """The feature a field speaks of, and its value; both empty where the kind has no such feature."""
    if field.value is True:
        return next(iter(kind.said.get(field.name, {}).items()), ("", ""))
    if field.name == ROTATION and SEEN_RIGHT.match(field.note):
        path = next((f"{slot}.{ROTATION}" for slot, types in kind.slots.items() if ROTATION in types), "")
        words = kind.slots[path.partition(".")[0]][ROTATION].words if path else ()
        return (path, str(field.value)) if field.value in words else ("", "")
    if field.name in FIGURES and isinstance(field.value, (int, float)):
        name, type_, unit = FIGURES[field.name]
        amount = f"{round(field.value, 3):.10g} {unit}".strip()
        return (_feature(kind, name, type_), amount) if _reads(amount, type_) else ("", "")
    return "", ""


def _feature(kind: Kind, name: str, type_: str) -> str:
    """The feature of this name and type; of several, the one whose dimension comes first in the kind."""
    decides = decided_by(kind)
    paths = [f"{slot}.{name}" for slot, types in kind.slots.items() if name in types and types[name].name == type_]
    return min(paths, key=lambda path: decides[path][0].order if path in decides else len(kind.dimensions), default="")


def _reads(amount: str, dimension: str) -> bool:
    try:
        return read_quantity(amount, dimension).value > 0
    except QuantityError:
        return False


def _apart(said: list[tuple[str, str]], dimension: str) -> list[tuple[str, str]]:
    """The values that differ: one written again in another unit is left out."""
    kept: list[tuple[str, str]] = []
    for value, remark in said:
        amount = read_quantity(value, dimension).value
        if all(abs(amount / read_quantity(known, dimension).value - 1) > SAME for known, _ in kept):
            kept.append((value, remark))
    return kept


def _as_said(field: Field) -> str:
    return f"“{field.text.strip()}”" + (f", {field.note}" if field.note else "")


def _odd(reading: AdReading, kind: Kind | None, told: set[str]) -> Iterator[str]:
    """What it says besides, for which there is no feature or which leaves open what it means."""
    odd = [field for field in reading.said if isinstance(field.value, (int, float, str)) and not isinstance(field.value, bool)]
    if kind is not None:
        odd = [field for field in odd if _placed(field, kind)[0] not in told]
        if reading.rotation and not _placed(reading.rotation, kind)[0]:
            odd.append(reading.rotation)
    for field in [*filter(None, (reading.year, reading.hours)), *odd][:MOST_ODD]:
        yield f"The ad on {field.name.replace('_', ' ')}: {_as_said(field)}"

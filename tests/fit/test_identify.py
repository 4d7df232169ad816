"""Readings made from every standard shape, and whether what is said of them is right."""

import itertools
import random

import pytest

from interchange.catalog.folders import shipped
from interchange.catalog.model import Pattern, Pin, Shaft
from interchange.catalog.rooms import read_file
from interchange.errors import InputError
from interchange.fit.candidate import candidate
from interchange.fit.contradiction import contradictions, counts_agreeing
from interchange.fit.identify import identify
from interchange.fit.next_reading import PART, next_readings
from interchange.fit.part_sort import BY_NAME, sort_named
from interchange.fit.spline_like import spline_like
from interchange.fit.taken import KINDS, PATTERNS, read_reading
from interchange.store.shapes import Use

IN = 25.4
TAPE_IN = 1 / 16
STEPS = [step / 8 * TAPE_IN for step in range(-8, 9)]
AMBIGUOUS_IN = 2 * TAPE_IN


def standards():
    files = [read_file(path.read_text(encoding="utf-8"), path.name, {}) for path in sorted(shipped("standards").glob("*.yaml"))]
    records = [record for file in files for record in file.records]
    return [candidate(each.id, each.value) for each in records if isinstance(each.value, Pattern | Shaft | Pin)]


ALL = standards()
FACES = [each for each in ALL if each.room == PATTERNS]
PORTS = [each for each in FACES if "port" in each.sorts]
ROUND = [each for each in FACES if each not in PORTS]


def of_part(one):
    (sort,) = one.sorts
    return [each for each in ALL if sort in each.sorts]


def read(name, mm, by="tape"):
    return read_reading(name, f"{mm:.4f} mm, {by}")


def holes(one):
    return read_reading("holes", f"{one.expected['holes'][0].value:g}")


def test_every_standard_shape_is_of_one_part_and_has_readings():
    assert (len(ROUND), len(PORTS)) == (29, 12)
    for each in ALL:
        assert len(each.sorts) == 1, each.id
        assert each.expected, each.id
    assert {sort for each in ALL for sort in each.sorts} == {sort.name for sort in BY_NAME.values() if sort.standard}


@pytest.mark.parametrize("one", ROUND, ids=lambda one: one.id)
def test_hole_count_and_opposite_chord_name_the_face_of_a_known_part(one):
    """With a tape that is off by as much as it may be, either way, and by ± taken as two standard deviations."""
    chord_mm = one.expected["opposite"][0].value
    draws = random.Random(one.id)  # noqa: S311 - readings are drawn, not secrets
    errors_in = STEPS + [draws.gauss(0, TAPE_IN / 2) for _ in range(200)]
    right = sum(
        identify(of_part(one), [holes(one), read("opposite", chord_mm + off * IN)]).standings[0].candidate is one
        for off in errors_in
    )
    assert right / len(errors_in) >= 0.99


@pytest.mark.parametrize("one", PORTS, ids=lambda one: one.id)
def test_a_port_is_named_by_two_spacings_with_a_caliper(one):
    """A tape across its diagonal would not do: two sizes of the two codes are 2.5 mm apart."""
    draws = random.Random(one.id)  # noqa: S311 - readings are drawn, not secrets
    for _ in range(200):
        spacings = [
            read(name, one.expected[name][0].value + draws.gauss(0, 0.127 / 2), "caliper")
            for name in ("long-spacing", "short-spacing")
        ]
        found = identify(PORTS, spacings)
        assert found.standings[0].candidate is one
        assert one in [each.candidate for each in found.rivals]


@pytest.mark.parametrize("told", [True, False], ids=["part said", "part not said"])
@pytest.mark.parametrize("one", FACES, ids=lambda one: one.id)
def test_an_adjacent_chord_alone_never_gives_a_wrong_single_answer(one, told):
    among = of_part(one) if told else FACES
    for expected, off_in in itertools.product(one.expected["adjacent"], STEPS):
        found = identify(among, [read("adjacent", expected.value + off_in * IN)])
        assert found.answer is None or found.answer.candidate is one
        assert one in [each.candidate for each in found.rivals]


def near_pairs():
    """Faces whose neighbouring holes are so nearly equally far apart that a tape may read either for the other."""
    for one, other in itertools.permutations(FACES, 2):
        a, b = one.expected["adjacent"], other.expected["adjacent"]
        if len(a) == len(b) == 1 and abs(a[0].value - b[0].value) <= AMBIGUOUS_IN * IN:
            yield one, other


def test_where_an_adjacent_chord_is_ambiguous_there_is_no_answer():
    pairs = list(near_pairs())
    assert ("sae-j617-3", "sae-j617-6") in [(one.id, other.id) for one, other in pairs]
    assert len(pairs) >= 10
    for one, other in pairs:
        middle = (one.expected["adjacent"][0].value + other.expected["adjacent"][0].value) / 2
        found = identify(FACES, [read("adjacent", middle)])
        assert found.answer is None, (one.id, other.id)
        assert {one.id, other.id} <= {each.candidate.id for each in found.rivals}


def test_a_number_3_and_a_number_6_housing_are_not_told_apart_by_neighbouring_holes():
    """1.6 mm apart, a tape's ±: the hole count is needed."""
    for id_ in ("sae-j617-3", "sae-j617-6"):
        one = next(each for each in FACES if each.id == id_)
        for off_in in STEPS:
            found = identify(of_part(one), [read("adjacent", one.expected["adjacent"][0].value + off_in * IN)])
            if abs(off_in) < TAPE_IN / 2:
                assert found.answer is None
                assert {each.candidate.id for each in found.rivals} == {"sae-j617-3", "sae-j617-6"}
        counted = identify(of_part(one), [read("adjacent", one.expected["adjacent"][0].value), holes(one)])
        assert counted.answer.candidate is one


def test_a_number_5_housing_and_an_11_inch_flywheel_are_a_tie_until_the_part_is_said():
    readings = [read_reading("holes", "8"), read_reading("opposite", "13-1/8 in")]
    found = identify(ALL, readings)
    first, second = found.standings[:2]
    assert {first.candidate.id, second.candidate.id} == {"sae-j617-5", "sae-j620-11-1-2"}
    assert first.chance == pytest.approx(second.chance)
    assert found.answer is None
    following = next_readings(found)
    assert following[0].name == PART
    assert following[0].bits == pytest.approx(1.0, abs=0.02)
    pilot = next(each for each in following if each.name == "bore")
    assert pilot.bits == pytest.approx(1.0, abs=0.02)
    assert dict(pilot.outcomes)["sae-j617-5"] == pytest.approx(12.3775 * IN, abs=0.01)


def test_the_worked_example_of_the_trade():
    """12 holes, adjacent edge to same edge 4-3/8 in, opposite 16-7/8 in: they agree, No. 3; the pilot reads about 16-1/8 in."""
    readings = [read_reading("holes", "12"), read_reading("adjacent", "4-3/8 in"), read_reading("opposite", "16-7/8 in")]
    assert contradictions(readings) == ()
    found = identify(FACES, readings)
    assert found.answer.candidate.id == "sae-j617-3"
    assert found.answer.candidate.expected["bore"][0].value / IN == pytest.approx(16.125, abs=0.01)


def test_a_half_inch_housings_flange_and_a_number_0_pilot_are_told_apart_by_which_was_measured():
    assert identify(FACES, [read_reading("flange", "25-1/2 in")]).standings[0].candidate.id == "sae-j617-1-2"
    assert identify(FACES, [read_reading("bore", "25-1/2 in")]).standings[0].candidate.id == "sae-j617-0"


def test_one_slip_does_not_outvote_the_rest_and_is_named():
    readings = [read_reading("holes", "8"), read_reading("adjacent", "4-3/8 in"), read_reading("opposite", "16-7/8 in")]
    found = identify(FACES, readings)
    assert found.answer is None
    assert found.standings[0].candidate.id == "sae-j617-3"
    assert [each.reading.kind.name for each in found.standings[0].against] == ["holes"]
    (said,) = contradictions(readings)
    assert "they would agree for 12 holes" in said


def test_what_is_in_no_catalog_is_told():
    found = identify(FACES, [read_reading("holes", "7"), read_reading("opposite", "20 in")])
    assert found.rivals == ()
    assert found.none_chance > 0.5


@pytest.mark.parametrize("one", [each for each in ALL if each.room == "shafts"], ids=lambda one: one.id)
def test_shafts_by_teeth_and_outside_diameter_with_a_caliper(one):
    draws = random.Random(one.id)  # noqa: S311 - readings are drawn, not secrets
    teeth = one.expected["teeth"][0].value
    for _ in range(60):
        readings = [read("od", one.expected["od"][0].value + draws.gauss(0, 0.127 / 2), "caliper")]
        readings.append(read_reading("teeth", f"{teeth:g}")) if teeth else None
        best = [each.candidate.id for each in identify(of_part(one), readings).standings[:3]]
        assert one.id in (best[:1] if teeth else best)  # keyed, splined and tapered ends come in one thickness


@pytest.mark.parametrize("one", [each for each in ALL if each.room == "pins"], ids=lambda one: one.id)
def test_hitches_by_the_lower_pin(one):
    for expected in one.expected["lower-pin"]:
        assert identify(of_part(one), [read("lower-pin", expected.value, "caliper")]).standings[0].candidate is one


def test_two_pto_shafts_as_thick_are_told_by_their_splines():
    shafts = [each for each in ALL if "pto-shaft" in each.sorts]
    found = identify(shafts, [read_reading("od", "1-3/8 in, caliper")])
    assert {each.candidate.id for each in found.rivals} == {"iso-500-1", "iso-500-2"}
    assert next_readings(found, part_known=True)[0].name == "teeth"


def test_a_port_of_the_other_pressure_series_is_not_taken_for_wear():
    ports = [each for each in ALL if "port" in each.sorts]
    found = identify(ports, [read_reading("long-spacing", "57.2 mm, caliper"), read_reading("short-spacing", "27.8 mm, caliper")])
    assert found.answer.candidate.id == "sae-j518-62-1"
    assert found.answer.chance > 0.99


def test_what_cannot_be_taken_is_not_asked_for():
    found = identify(FACES, [read_reading("adjacent", "4-3/8 in")])
    first = next_readings(found, part_known=True)[0].name
    assert first not in [each.name for each in next_readings(found, [first], part_known=True)]


def test_only_the_side_of_the_register_that_a_part_has_is_asked_for():
    pumps = [each for each in ALL if "pump-flange" in each.sorts]
    names = [each.name for each in next_readings(identify(pumps, [read_reading("holes", "2")]), part_known=True)]
    assert "spigot" in names
    assert "bore" not in names


@pytest.mark.parametrize("given", [("adjacent", "4-3/8 in"), ("holes", "2"), ("holes", "8"), ("skip-one", "4 in")], ids=str)
def test_information_is_never_more_than_is_open(given):
    found = identify(FACES, [read_reading(*given)])
    following = next_readings(found)
    assert following
    for each in following:
        assert 0 < each.bits <= found.entropy_bits + 1e-6, each.name


def test_what_a_reading_brings_is_what_many_draws_bring():
    """The quadrature against 3000 readings drawn from the candidates themselves."""
    found = identify(FACES, [read_reading("adjacent", "4-3/8 in")])
    told = next(each for each in next_readings(found, part_known=True) if each.name == "flange")
    known = [each for each in found.standings if each.candidate.expected.get("flange") and each.chance > 0.002]
    draws = random.Random(1)  # noqa: S311 - readings are drawn, not secrets
    after = 0.0
    tries = 3000
    for _ in range(tries):
        (each,) = draws.choices(known, [one.chance for one in known])
        expected = each.candidate.expected["flange"][0]
        off = draws.gauss(0, (expected.tolerance**2 + 1.5875**2) ** 0.5 / 2)
        more = identify(FACES, [*found.readings, read("flange", expected.value + off)])
        after += more.entropy_bits / tries
    weight = sum(each.chance for each in known)
    assert told.bits == pytest.approx(weight * (found.entropy_bits - after), abs=0.12)


@pytest.mark.parametrize(
    ("given", "words"),
    [
        pytest.param({"flange": "14 in", "bore": "15 in"}, "pilot is wider than the flange", id="pilot over flange"),
        pytest.param({"flange": "14 in", "opposite": "15 in"}, "holes do not go on the flange", id="holes over flange"),
        pytest.param({"flange": "14 in", "opposite": "14-1/8 in"}, None, id="just within both tapes"),
        pytest.param({"flange": "14 in", "opposite": "14-3/16 in"}, "do not go on the flange", id="just outside them"),
        pytest.param({"adjacent": "5 in", "opposite": "4 in"}, "neighbouring holes cannot be", id="chords the wrong way round"),
        pytest.param({"holes": "12", "adjacent": "4-3/8 in", "opposite": "15 in"}, "for 12 holes", id="two circles"),
        pytest.param({"holes": "12", "adjacent": "4-3/8 in", "opposite": "16-7/8 in"}, None, id="one circle"),
        pytest.param({"holes": "12", "skip-one": "8-7/16 in", "circle": "16-7/8 in"}, None, id="skip-one and a circle"),
        pytest.param({"adjacent": "4-3/8 in", "opposite": "16-7/8 in"}, None, id="agree for 12 holes"),
        pytest.param({"adjacent": "9 in", "opposite": "9-1/2 in"}, "no number of even holes", id="agree for none"),
        pytest.param({"root": "1-1/2 in", "od": "1-3/8 in"}, "root cannot be wider", id="shaft"),
    ],
)
def test_contradictions(given, words):
    said = contradictions([read_reading(name, written) for name, written in given.items()])
    assert (words is None) == (not said), said
    assert words is None or any(words in each for each in said)


def test_chords_alone_tell_the_hole_count():
    by_name = {name: read_reading(name, written) for name, written in (("adjacent", "4-3/8 in"), ("opposite", "16-7/8 in"))}
    assert counts_agreeing(by_name) == (12,)


@pytest.mark.parametrize(
    ("name", "written", "words"),
    [
        pytest.param("holes", "twelve", "is no count", id="words"),
        pytest.param("holes", "0", "is no count", id="none"),
        pytest.param("opposite", "16-7/8 in, photo", "is not read by 'photo'", id="photo"),
        pytest.param("opposite", "16-7/8 in, tap", "is not read by 'tap'", id="misspelt"),
        pytest.param("opposite", "0 in", "is no distance", id="nothing"),
        pytest.param("opposite", "16-7/8", "unit|inch|written", id="no unit"),
    ],
)
def test_readings_that_are_none(name, written, words):
    with pytest.raises(InputError, match=words):
        read_reading(name, written)


@pytest.mark.parametrize(
    ("written", "mm", "tolerance"),
    [
        pytest.param("16-7/8 in", 428.625, 1.5875, id="by tape where nothing is said"),
        pytest.param("3.25 in, caliper", 82.55, 0.127, id="by caliper"),
        pytest.param("16-7/8 in ±1/32 in", 428.625, 0.79375, id="with a ± of its own"),
        pytest.param("100-102 mm", 101, 1, id="a range"),
    ],
)
def test_how_a_length_was_read_sets_its_tolerance(written, mm, tolerance):
    reading = read_reading("opposite", written)
    assert (reading.value, reading.tolerance) == (pytest.approx(mm), pytest.approx(tolerance))


def test_a_shape_is_of_the_parts_that_use_it():
    face = Pattern(id="mine", holes=12)
    assert candidate("mine", face).sorts == frozenset()
    assert candidate("mine", face, [Use("x", "engine", "housing.out")]).sorts == {"housing"}
    assert candidate("mine", face, [Use("x", "pump", "housing.out")]).sorts == frozenset()


@pytest.mark.parametrize("name", ["pump flange", "Pump-Flange", "pto shaft"])
def test_parts_by_name(name):
    assert sort_named(name).name == "-".join(name.casefold().replace("-", " ").split())
    with pytest.raises(InputError, match="housing"):
        sort_named("housng")


def test_a_spline_in_no_catalog_is_likened_by_formula():
    like = spline_like([read_reading("teeth", "21"), read_reading("od", "1.375 in, caliper")])
    assert "21T 16/32, an involute of 30°" in like
    like = spline_like([read_reading("teeth", "8"), read_reading("od", "42 mm, caliper"), read_reading("root", "36 mm, caliper")])
    assert "ISO 14 8×36×42" in like
    assert spline_like([read_reading("teeth", "8")]) == ()


def test_every_reading_says_how_it_is_taken():
    assert all(each.how and each.title for each in KINDS.values())

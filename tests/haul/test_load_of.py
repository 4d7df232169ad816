import pytest

from interchange.errors import InputError
from interchange.haul.load_of import ENDS, end_of, read_size_in, read_weight_lb, with_known
from interchange.haul.option import HIRED, Load
from interchange.job.job import HIRED_WAYS


@pytest.mark.parametrize(
    ("text", "sides_in"),
    [
        pytest.param("48 x 40 x 42 in", (48, 40, 42), id="one unit for all"),
        pytest.param("48in x 40in x 42in", (48, 40, 42), id="a unit each"),
        pytest.param("4 ft × 3-1/2 ft × 42 in", (48, 42, 42), id="mixed units"),
        pytest.param("1200 by 1000 by 1100 mm", (47.244094, 39.370079, 43.307087), id="metric"),
        pytest.param('48X40*42"', (48, 40, 42), id="marks"),
        pytest.param("16-7/8 x 16 x 12 in", (16.875, 16, 12), id="a fraction"),
    ],
)
def test_a_size_is_three_sides(text, sides_in) -> None:
    assert read_size_in(text) == pytest.approx(sides_in)


@pytest.mark.parametrize(
    "text", ["", "48 x 40 in", "48 x 40 x 42 x 1 in", "48 x 40 x 42 lb", "a x b x c", "0 x 4 x 4 in", "48 x 40 x -2 in"]
)
def test_a_size_that_is_none(text) -> None:
    with pytest.raises(InputError) as caught:
        read_size_in(text)
    assert caught.value.hint


@pytest.mark.parametrize(("text", "pounds"), [("900 lb", 900), ("1 t", 2204.622622), ("800-900 lb", 900), ("408.2331 kg", 900)])
def test_a_weight_in_pounds_the_heavier_end_of_a_range(text, pounds) -> None:
    assert read_weight_lb(text) == pytest.approx(pounds, rel=1e-6)


@pytest.mark.parametrize("text", ["", "heavy", "900 in", "0 lb"])
def test_a_weight_that_is_none(text) -> None:
    with pytest.raises(InputError) as caught:
        read_weight_lb(text)
    assert caught.value.hint


def test_what_the_user_knows_stands_over_the_catalog() -> None:
    known = with_known(Load(what="engine", weight_lb=500, on_pallet=True), "900 lb", "48 x 40 x 42 in", "farm", "")
    assert (known.weight_lb, known.length_in, known.width_in, known.height_in) == (900, 48, 40, 42)
    assert (known.collection, known.delivery, known.on_pallet) == ("farm", "not known", True)
    assert with_known(Load(what="engine", weight_lb=500), None, None, None, "house").weight_lb == 500


@pytest.mark.parametrize("word", ENDS)
def test_each_end_by_its_word(word) -> None:
    assert end_of(word) == word


def test_another_end_is_a_wrong_call() -> None:
    with pytest.raises(InputError, match="'beach'") as caught:
        end_of("beach")
    assert "farm" in caught.value.hint


def test_the_ways_a_job_may_name_are_those_that_are_hired() -> None:
    assert set(HIRED_WAYS) == set(HIRED)

"""Rates for prices from abroad, as a home file has them."""

import pytest

from interchange.ads import number
from interchange.errors import FileProblemsError
from interchange.job.currency import CURRENCIES
from interchange.job.home import read_home


def home_with(folder, currency):
    path = folder / "home.yaml"
    path.write_text(f"place: Barre, VT\nrates:\n  own_hour: $40\n  currency: {currency}\n", encoding="utf-8")
    return path


def test_a_rate_and_its_origin(tmp_path):
    found = read_home(home_with(tmp_path, "{EUR: 1.08, SEK: {value: 0.0957, from: my bank, on: 2026-11-20}}")).rates.currency
    assert found.dollars("EUR") == pytest.approx(1.08)
    assert found.dollars("SEK") == pytest.approx(0.0957)
    assert (found["SEK"].origin.source, found["SEK"].origin.on) == ("my bank", "2026-11-20")
    assert found.dollars("GBP") is None


def test_a_home_without_rates_has_none(tmp_path):
    path = tmp_path / "home.yaml"
    path.write_text("place: Barre, VT\n", encoding="utf-8")
    assert read_home(path).rates.currency.dollars("EUR") is None


@pytest.mark.parametrize(
    ("currency", "line", "column", "slug"),
    [
        pytest.param("{EURO: 1.08}", 4, 14, "unknown-currency", id="no such code"),
        pytest.param("{USD: 1}", 4, 14, "unknown-currency", id="dollars themselves"),
        pytest.param("{EUR: 0}", 4, 19, "not-a-rate", id="nothing"),
        pytest.param("{EUR: -1.08}", 4, 19, "not-a-rate", id="less than nothing"),
        pytest.param("{EUR: '1,08'}", 4, 20, "not-a-rate", id="a comma"),
        pytest.param("{EUR: 1.05-1.10}", 4, 19, "not-a-rate", id="a range"),
        pytest.param("{EUR: nan}", 4, 19, "not-a-rate", id="no number"),
        pytest.param("{EUR: {value: much}}", 4, 27, "not-a-rate", id="no number, with an origin"),
        pytest.param("{EUR: [1.05, 1.10]}", 4, 19, "not-a-rate", id="two sources"),
        pytest.param("{EUR: }", 4, 19, "empty", id="left empty"),
        pytest.param("{EUR: {from: x}}", 4, 19, "missing-key", id="an origin alone"),
        pytest.param("1.08", 4, 13, "wrong-shape", id="no code"),
    ],
)
def test_what_is_no_rate_is_told_with_its_place(tmp_path, currency, line, column, slug):
    with pytest.raises(FileProblemsError) as caught:
        read_home(home_with(tmp_path, currency))
    (problem,) = caught.value.problems
    assert (problem.line, problem.column, problem.slug) == (line, column, slug)
    assert problem.hint


def test_a_code_misspelt_is_offered(tmp_path):
    with pytest.raises(FileProblemsError, match="EUR"):
        read_home(home_with(tmp_path, "{EURO: 1.08}"))


def test_every_currency_that_ads_are_read_in_may_have_a_rate():
    read = {
        code for table in vars(number).values() if isinstance(table, dict) for code in table.values() if isinstance(code, str)
    }
    codes = {code for code in read if len(code) == 3 and code.isalpha() and code.isupper()}
    assert codes - {"USD"} == set(CURRENCIES)

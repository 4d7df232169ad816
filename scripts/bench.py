"""Speed, measured as ratios in one run on one machine: each row with what it is held against, the bar, and what came out.

Commands are whole processes, best of several; the rest is timed inside this one. Nothing here passes or fails: it prints.
"""

from __future__ import annotations

import argparse
import dataclasses
import functools
import itertools
import os
import random
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT))
sys.path.insert(0, str(ROOT / "scripts"))

IMPORTS = "import duckdb, rapidfuzz.process, typer, rich.table, yaml"
JOB = ROOT / "catalog" / "demo" / "jobs" / "pit-loader"
SMALL_FILE = ROOT / "catalog" / "standards" / "hitch-pins.yaml"
TIMES = 9
MIB = 2**20
MOST_DONORS = 20
PLANNED_SAMPLE = 300
BATCH, SAMPLE = 20_000, 400
LEAST_MODEL, HIGHEST = 4, 100  # signs of a model's number; the most token_set_ratio gives


def python(*arguments: str, cache: Path) -> float:
    """Seconds of one whole process."""
    environment = {**os.environ, "INTERCHANGE_CACHE": str(cache), "PYTHONPATH": str(ROOT)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)  # a user's second run does not compile the program again
    began = time.perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True, env=environment, cwd=ROOT)
    return time.perf_counter() - began


def best(*arguments: str, cache: Path) -> float:
    """The best of several runs, after one to warm up."""
    python(*arguments, cache=cache)
    return min(python(*arguments, cache=cache) for _ in range(TIMES))


def timed(work: Callable[[], object]) -> tuple[float, object]:
    """(seconds, result) of some work."""
    began = time.perf_counter()
    result = work()
    return time.perf_counter() - began, result


def row(what: str, bar: str, *figures: str) -> None:
    print(f"{what}  [bar: {bar}]")
    for figure in figures:
        print(f"    {figure}")


def commands(cache: Path) -> None:
    """Rows 1 and 2: whole commands against the imports they cannot do without."""
    floor = best("-c", IMPORTS, cache=cache)
    program = ("-m", "interchange.cli")
    rank = best(*program, "rank", str(JOB), cache=cache)
    changed = min(_rank_of_another_paste(cache, number) for number in range(TIMES))
    row(
        "rank on the demo, warm cache, whole process",
        "≤ 1.5",
        f"the same question again: {rank * 1000:.0f} ms / imports {floor * 1000:.0f} ms = {rank / floor:.2f}",
        f"one ad more in the paste: {changed * 1000:.0f} ms / imports {floor * 1000:.0f} ms = {changed / floor:.2f} (no bar)",
    )
    typer = best("-c", "import typer", cache=cache)
    usage = best(*program, "--help", cache=cache)
    check = best(*program, "catalog", "check", str(SMALL_FILE), cache=cache)
    row(
        "--help; catalog check of one small file",
        "≤ 1.3; ≤ 1.5",
        f"--help: {usage * 1000:.0f} ms / import typer {typer * 1000:.0f} ms = {usage / typer:.2f}",
        f"catalog check: {check * 1000:.0f} ms / import typer {typer * 1000:.0f} ms = {check / typer:.2f}",
    )


def _rank_of_another_paste(cache: Path, number: int) -> float:
    """The demo's ads and one more, never asked before: nothing remembered serves, but the catalog is warm."""
    with tempfile.TemporaryDirectory() as folder:
        extra = Path(folder) / "extra.txt"
        extra.write_text(f"Hestrel H52D engine\n${2000 + number}\nRuns good.\nMontpelier, VT\n", encoding="utf-8")
        ads = [str(path) for path in sorted((JOB / "ads").iterdir())]
        return python("-m", "interchange.cli", "rank", str(JOB), *ads, str(extra), cache=cache)


def loading(cache: Path, units: int) -> None:
    """Row 3: the first load of a large catalog against one plain load by the YAML library."""
    import yaml
    from big_catalog import write_catalog

    from interchange.catalog.folders import search_path
    from interchange.store.cache import up_to_date

    os.environ["INTERCHANGE_CACHE"] = str(cache / "big")
    with tempfile.TemporaryDirectory() as name:
        paths = write_catalog(Path(name), units)
        texts = [path.read_text(encoding="utf-8") for path in paths]
        plain, _ = timed(lambda: [yaml.load(text, Loader=yaml.CSafeLoader) for text in texts])
        folders = search_path((Path(name),))

        def load() -> object:
            connection, read = up_to_date(folders)
            connection.close()
            return read

        first, read = timed(load)
        again, _ = timed(load)
        paths[-1].write_text(texts[-1].replace("invented", "made up", 1), encoding="utf-8")
        one, changed = timed(load)
    size = sum(map(len, texts)) / MIB
    row(
        f"first load of {units:,} catalog entries ({size:.1f} MiB of YAML)",
        "≤ 0.6; unchanged ≤ 0.1 s; one changed file re-reads that file only",
        f"first: {first:.2f} s / plain yaml.load {plain:.2f} s = {first / plain:.2f} ({read})",
        f"unchanged: {again:.3f} s",
        f"one file of {len(paths)} changed: {one:.2f} s ({changed})",
    )


def matching(cache: Path, ads: int, units: int) -> None:
    """Row 4: many ads against many units, against rapidfuzz scoring every pair.

    Both are given whole ads; beside it what rapidfuzz makes of titles alone, which are shorter and oftener enough.
    """
    from big_catalog import write_catalog
    from many_ads import many_ads
    from rapidfuzz import fuzz, process, utils

    from interchange.ads.match import Known, match
    from interchange.catalog.folders import search_path
    from interchange.store.cache import up_to_date

    os.environ["INTERCHANGE_CACHE"] = str(cache / "match")
    with tempfile.TemporaryDirectory() as name:
        write_catalog(Path(name), units)
        connection, _ = up_to_date(search_path((Path(name),)))
    rows = connection.execute("SELECT id, maker, title FROM record WHERE room = 'units' AND live ORDER BY id").fetchall()
    made = many_ads([(id_, maker, title.removeprefix(maker).strip()) for id_, maker, title in rows], ads)
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    took, known = timed(lambda: Known(connection))
    settled, settled_right = 0, 0
    told: dict[str, list[bool]] = {}
    firsts: list[str] = []
    sample = []
    while part := list(itertools.islice(made, BATCH)):
        texts = {str(number): (ad.text, ad.title_end) for number, ad in enumerate(part)}
        seconds, matched = timed(functools.partial(match, connection, texts, known))
        took += seconds
        for number, ad in enumerate(part):
            each = matched[str(number)]
            first = each.first.name.id if each.first else ""
            told.setdefault(ad.spelling, []).append(first == ad.unit)
            settled += bool(each.hits)
            settled_right += bool(each.hits) and first == ad.unit
            if len(sample) < SAMPLE:
                sample.append(ad)
                firsts.append(first)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    choices = [utils.default_process(title) for _, _, title in rows]
    whole = [utils.default_process(ad.text) for ad in sample]
    heads = [utils.default_process(ad.text[: ad.title_end]) for ad in sample]
    ours = ads / took
    against = []
    for scorer, queries, what in (
        (fuzz.WRatio, whole, "whole ads"),
        (fuzz.token_set_ratio, whole, "whole ads"),
        (fuzz.WRatio, heads, "titles alone"),
        (fuzz.ratio, heads, "titles alone"),
    ):
        pairs, scores = timed(functools.partial(process.cdist, queries, choices, scorer=scorer, workers=1))
        right = [n for n, ad in enumerate(sample) if rows[int(scores[n].argmax())][0] == ad.unit]
        agree = sum(firsts[n] == sample[n].unit for n in right)
        theirs = len(sample) / pairs
        share = agree / max(1, len(right))
        against.append(
            f"cdist {scorer.__name__}, {what}: {theirs:,.1f} ads/s, ours {ours / theirs:,.1f} ×; "
            f"right on {len(right)} of {len(sample)}, the same answer in {agree} of these ({share:.1%})"
        )
    row(
        f"{ads:,} ads against {len(rows):,} units",
        "≥ 1,000 × cdist of every pair; same answer in ≥ 99.5 % where cdist is right; ≤ 2 GiB",
        f"{ours:,.0f} ads/s",
        *against,
        f"first place right: {sum(map(sum, told.values())) / ads:.2%}",
        f"settled: {settled / ads:.2%}, right in {settled_right / settled:.3%} of these",
        "by spelling: " + ", ".join(f"{name} {sum(right) / len(right):.2%}" for name, right in sorted(told.items())),
        f"memory at most {peak / 1024:,.0f} MiB, {before / 1024:,.0f} of it before the matching",
    )


class Counted(NamedTuple):
    """A search for the cheapest donors: how long it took, and what became of the forms of units."""

    outlook: float
    bound: float
    search: float
    """All of it: the outlook, the bound and the plans. A setting of its own, so that nothing is remembered of the other two."""
    planned: int
    passed_by: int
    ruled_out: int
    forms: int
    going: int
    plan: float
    """Seconds for one plan, of the sample."""


def donors(cache: Path, units: int) -> None:
    """Row 5: the exact cheapest donors of a large catalog against planning every form that is not ruled out."""
    from big_catalog import write_catalog

    os.environ["INTERCHANGE_CACHE"] = str(cache / "donors")
    with tempfile.TemporaryDirectory() as name:
        home = Path(name) / "home"
        shutil.copytree(ROOT / "catalog" / "demo", home)
        write_catalog(home / "more", units)
        file = home / "home.yaml"
        file.write_text(file.read_text(encoding="utf-8").replace("[catalog]", "[catalog, more]"), encoding="utf-8")
        found = {job: _donors_of(home / "jobs" / job) for job in ("pit-loader", "hill-tractor")}
    figures = [line for job, each in found.items() for line in _told(job, each)]
    row(f"exact top {MOST_DONORS} donors of {units:,} units and the demo's, warm cache, without start-up", "≤ 2 s", *figures)


def _told(job: str, each: Counted) -> Iterator[str]:
    yield f"{job}: {each.search:.2f} s in all, of it outlook {each.outlook:.2f} s and bound in SQL {each.bound:.2f} s"
    left = each.going - each.planned - each.passed_by
    weighed = f"{each.planned:,} planned, {each.passed_by:,} weighed and passed by, {left:,} never looked at"
    yield f"    {each.forms:,} forms: {each.ruled_out:,} ruled out at once, {weighed}"
    every = each.plan * each.going
    sample = f"from {min(PLANNED_SAMPLE, each.going)} of them"
    ratio = f"{every:.1f} s ({sample}) / {each.search:.2f} s = {every / each.search:.1f}"
    yield f"    {1 / each.plan:,.0f} plans a second; every form not ruled out: {ratio}"


def _donors_of(job: Path) -> Counted:
    from interchange.fit import donors as search
    from interchange.fit.bound import INFINITE, Bounds
    from interchange.fit.plan import best_choice
    from interchange.fit.setting import WHOLE
    from interchange.opening import Bar, open_setting

    open_setting(job, None, Bar())
    setting, _ = open_setting(job, None, Bar())
    outlook, seat = timed(lambda: setting.seat("engine"))
    bound, bounds = timed(lambda: Bounds(setting.library.connection, seat.case, seat.offer(WHOLE), seat.load))
    going = [one for one in bounds.every if one.cents < INFINITE]
    chance = random.Random(len(going))  # noqa: S311 - the same forms every time
    sample = chance.sample(going, min(PLANNED_SAMPLE, len(going)))
    seat.prepare(tuple({one.unit for one in sample}))
    pairs = [seat.pair(one.unit, one.variant) for one in sample]
    quiet = [(dataclasses.replace(case, explain=False), donor) for case, donor in pairs]
    planning, _ = timed(lambda: [best_choice(*pair) for pair in quiet])
    setting.library.connection.close()

    passed_by = 0
    may_beat = search.may_beat

    def counting(*arguments: object) -> bool:
        nonlocal passed_by
        may = may_beat(*arguments)
        passed_by += not may
        return may

    fresh, _ = open_setting(job, None, Bar())
    search.may_beat = counting
    try:
        whole, found = timed(lambda: search.best_donors(fresh.seat("engine"), MOST_DONORS))
    finally:
        search.may_beat = may_beat
    fresh.library.connection.close()
    return Counted(
        outlook, bound, whole, found.planned, passed_by, found.ruled_out, found.forms, len(going), planning / max(1, len(sample))
    )


def by_token_set(queries: list[str], choices: list[str]) -> list[int]:
    """The place in `choices` of the likest one of each query, by rapidfuzz's token_set_ratio of every pair."""
    return [int(row.argmax()) for row in token_set_scores(queries, choices)]


def by_token_set_and_model(queries: list[str], choices: list[str]) -> list[int]:
    """The same, where a pair that has a model's number in common stands before all that have none."""
    scores = token_set_scores(queries, choices)
    having: dict[str, list[int]] = {}
    for place, choice in enumerate(choices):
        for word in models(choice):
            having.setdefault(word, []).append(place)
    for row, query in zip(scores, queries, strict=True):
        for place in {place for word in models(query) for place in having.get(word, ())}:
            row[place] += HIGHEST
    return [int(row.argmax()) for row in scores]


def token_set_scores(queries: list[str], choices: list[str]) -> Any:  # noqa: ANN401  (numpy's array: not installed everywhere)
    from rapidfuzz import fuzz, process, utils

    return process.cdist(queries, choices, scorer=fuzz.token_set_ratio, processor=utils.default_process, workers=1)


def by_characters(queries: list[str], choices: list[str]) -> list[int]:
    """The same, by the cosine of character n-grams weighed by rarity (scikit-learn's TF-IDF, 2 to 4 letters within words)."""
    from sklearn.feature_extraction.text import TfidfVectorizer

    weigher = TfidfVectorizer(analyzer="char_wb", ngram_range=(2, 4), sublinear_tf=True)
    units = weigher.fit_transform(choices)
    return [int(row.argmax()) for row in (weigher.transform(queries) @ units.T).toarray()]


def models(title: str) -> set[str]:
    """Words that look like a model's number: four signs or more, letters stripped of hyphens, a digit among them."""
    words = {"".join(filter(str.isalnum, word)).lower() for word in title.split()}
    return {word for word in words if len(word) >= LEAST_MODEL and any(map(str.isdigit, word))}


YARDSTICKS = {
    "token_set_ratio of every pair (rapidfuzz)": by_token_set,
    "the same, models that agree first": by_token_set_and_model,
    "character TF-IDF of every pair (scikit-learn)": by_characters,
}


def titles(cache: Path, folder: Path) -> None:
    """Row 6: titles from somewhere else, against general text scorers that score every pair."""
    from title_catalog import both_ways, write_titles

    from interchange.ads.match import match
    from interchange.catalog.folders import search_path
    from interchange.store.cache import up_to_date

    figures = []
    for pairs in both_ways(folder):
        os.environ["INTERCHANGE_CACHE"] = str(cache / pairs.name.replace(" ", "-"))
        with tempfile.TemporaryDirectory() as name:
            write_titles(Path(name), pairs.catalog)
            connection, _ = up_to_date(search_path((Path(name),)))
        texts = {id_: (title, len(title)) for id_, title in pairs.ads.items()}
        took, found = timed(functools.partial(match, connection, texts))
        firsts = {id_: one.first.name.id.removeprefix("t-") if one.first else "" for id_, one in found.items()}
        right = {id_ for id_, first in firsts.items() if first in pairs.right[id_]}
        settled = {id_ for id_, one in found.items() if one.hits}
        units = list(pairs.catalog.titles)
        queries, choices = list(pairs.ads.values()), list(pairs.catalog.titles.values())
        figures += [
            f"{pairs.name}: {len(texts):,} ads, {len(units):,} units",
            f"    first place right {len(right) / len(texts):.3f} in {took:.2f} s",
            f"    settled {len(settled) / len(texts):.3f}, right in {len(right & settled) / len(settled):.3f} of these",
        ]
        for what, scores_of in YARDSTICKS.items():
            slow, firsts_of = timed(functools.partial(scores_of, queries, choices))
            theirs = sum(units[first] in pairs.right[id_] for id_, first in zip(pairs.ads, firsts_of, strict=True))
            figures.append(f"    {what}: {theirs / len(texts):.3f} in {slow:.2f} s")
    row("titles from somewhere else, no training", "first place right ≥ 0.90; its time beside theirs", *figures)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="smaller sizes")
    parser.add_argument("--ads", type=int, help="how many ads for row 4")
    parser.add_argument("--rows", default="1,2,3,4,5", help="which rows, such as 1,3")
    parser.add_argument("--data", type=Path, help="a folder of paired titles for row 6 (see title_catalog.py)")
    asked = parser.parse_args()
    rows = set(asked.rows.split(","))
    with tempfile.TemporaryDirectory() as name:
        cache = Path(name)
        if rows & {"1", "2"}:
            commands(cache)
        if "3" in rows:
            loading(cache, 1_200 if asked.quick else 12_000)
        if "6" in rows and asked.data is None:
            parser.error("row 6 wants --data FOLDER")
        if "6" in rows:
            titles(cache, asked.data)
        if "4" in rows:
            matching(cache, asked.ads or (2_000 if asked.quick else 100_000), 2_000 if asked.quick else 20_000)
        if "5" in rows:
            donors(cache, 2_000 if asked.quick else 20_000)


if __name__ == "__main__":
    main()

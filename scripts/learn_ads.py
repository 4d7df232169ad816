"""Learn from the labelled ads of tests/data which signs tell the price and the sale, and write the weights the reader uses.

Of the options of each ad one is right; the weights are those that make the right ones likeliest, with a ridge (a conditional
logit, McFadden 1974). How much they count against what the rules say is learned last, from the ads of FRESH alone: few rules were
made by those, and the weights tried on some writers are learned without them. Held-out ads are never learned from.

`--try` writes nothing: it learns without each fresh writer in turn, tries the weights on him, and prints what was right.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "scripts")]

import numpy as np  # noqa: E402 - the paths above are for a checkout that is not installed
from scipy.optimize import minimize  # noqa: E402
from scipy.sparse import csr_matrix  # noqa: E402
from score_ads import MADE_OF, for_learning, made_of, seats  # noqa: E402

from interchange.ads.figures import figures  # noqa: E402
from interchange.ads.learned import BY_RULES, WEIGHTS  # noqa: E402
from interchange.ads.no_price import no_price  # noqa: E402
from interchange.ads.offer_kind import MACHINE_DEFAULT, MACHINE_OFFERS, UNIT_DEFAULT  # noqa: E402
from interchange.ads.pasted import Ad  # noqa: E402
from interchange.ads.price import by_rules as price_by_rules  # noqa: E402
from interchange.ads.price_settled import FREE, IT, NO_SUM, SILENT, silence  # noqa: E402
from interchange.ads.price_settled import LEARNED as PRICE  # noqa: E402
from interchange.ads.price_signs import Option, options, signs, silent_signs  # noqa: E402
from interchange.ads.reads import ad_words, by_rules  # noqa: E402
from interchange.ads.sale import LEARNED as SALE  # noqa: E402
from interchange.ads.sale import said  # noqa: E402
from interchange.ads.seeking import seeks  # noqa: E402
from interchange.ads.shelf import read_new  # noqa: E402

FRESH = frozenset([
    "pacific", "south", "great_lakes", "mountain", "cascades", "rio_grande", "corn_belt", "deep_woods", "sun_belt",
    "palouse", "snow_belt", "delta", "gulf_coast", "hill_country", "river_towns", "desert",
    "farm_talk", "phone_talk", "yards_and_clubs", "plain_sites", "abroad_and_parts", "haggles", "stock_and_stories",
    "listings", "many_sums", "no_sum_said", "plain_short", "everyday_short",
])  # fmt: skip
"""Writers whose ads were counted before a rule was changed by them; by the misses of some a few were mended afterwards."""
PLAIN = frozenset([
    "pacific", "south", "great_lakes", "mountain", "corn_belt", "deep_woods", "palouse", "snow_belt", "delta", "hill_country",
    "river_towns", "desert",
])  # fmt: skip
"""Those of them who wrote long ads and were not asked for hard ones: how often there is no price is as usual with them."""
LAST = {PRICE: PLAIN, NO_SUM: FRESH, SALE: FRESH}
"""Whose ads say how much what is learned counts against what the rules say."""
RIDGE = {PRICE: 0.5, NO_SUM: 1.0, SALE: 1.0}
RIDGE_LAST = 0.3
FOLDS = 6  # groups of writers that are left out together for it
LEAST_SEEN = 2  # ads a sign must stand in
LEAST_WEIGHT = 0.03  # smaller weights are left out of the file
CLOSE = 0.5  # of a unit of money
Weights = dict[str, dict[str, float]]
Labels = Sequence[tuple[str, dict[str, Any]]]


class Choice(NamedTuple):
    """One ad: its options by name, the signs of each (one set where all share them), the rules' signs of each, the right ones."""

    writer: str
    answers: tuple[str, ...]
    signs: tuple[frozenset[str], ...]
    rules: tuple[frozenset[str], ...]
    right: frozenset[int]

    def sums(self, weights: Weights) -> list[float]:
        """The sum of the weights of each option, without the rules' signs."""
        shared = len(self.signs) == 1
        return [
            sum(weights[answer].get(sign, 0.0) for sign in self.signs[0 if shared else at])
            for at, answer in enumerate(self.answers)
        ]


def price_choices(ads: Labels) -> list[Choice]:
    """Which of each ad's sums is its price, or that there is none."""
    found = []
    for writer, label in ads:
        counted = figures(label["text"])
        ruled, sums = price_by_rules(counted.text, counted.numbers, counted.title)
        some = options(counted.numbers, sums)
        if "kind" not in label or not some:
            continue
        about = signs(counted.text, counted.title, some, ruled.asked, sought=seeks(counted.text) is not None)
        right = _right_sums(label, some)
        plain = tuple(frozenset(sign for sign in own if not sign.startswith(BY_RULES)) for own in about)
        ruling = tuple(frozenset(sign for sign in own if sign.startswith(BY_RULES)) for own in about)
        found.append(Choice(writer, (IT,) * len(about), plain, ruling, right))
    return found


def _right_sums(label: Mapping[str, Any], some: Sequence[Option]) -> frozenset[int]:
    """Which options come to what the label says; what is free has no sum, and a sum that stands in for one is none."""
    if label["kind"] in ("asked", "rental") and label["price"]:
        return frozenset(at for at, one in enumerate(some) if abs(one.value - label["price"]) < CLOSE)
    stand_ins = (at for at, one in enumerate(some) if one.candidate and one.candidate.read.kind == "placeholder")
    return frozenset([len(some), *(stand_ins if label["kind"] == "placeholder" else ())])


def silent_choices(ads: Labels) -> list[Choice]:
    """What stands in place of a sum, in the ads that ask for none."""
    found = []
    for writer, label in ads:
        kind = label.get("kind")
        wanted = FREE if kind == "asked" and label["price"] == 0 else kind
        text = figures(label["text"]).text
        if wanted not in SILENT or seeks(text) is not None:
            continue
        said = silence(no_price(text))
        ruling = tuple(frozenset(["said", f"said {answer}"] if answer == said else []) for answer in SILENT)
        right = frozenset([SILENT.index(wanted)])
        found.append(Choice(writer, SILENT, (frozenset(silent_signs(text)),), ruling, right))
    return found


def sale_choices(ads: Labels) -> list[Choice]:
    """What sort of sale each ad makes; what seeks is left out."""
    library = next(iter(seats().values())).setting.library
    ads = [(writer, label) for writer, label in ads if "subject" in label and label["offer"] != "wanted"]
    read = read_new([Ad(str(at), label["text"], writer, 1, "") for at, (writer, label) in enumerate(ads)], ad_words(library))
    ruled = by_rules(library, read)
    wanted = [label["offer"] or (MACHINE_DEFAULT if label["subject"] == "machine" else UNIT_DEFAULT) for _, label in ads]
    answers = tuple(sorted({*wanted, *MACHINE_OFFERS, UNIT_DEFAULT}))
    found = []
    for at, (writer, _) in enumerate(ads):
        one = ruled[str(at)]
        word = said(one.reading)
        own = frozenset(["said", f"said {word}", *(["plainly", f"plainly {word}"] if one.reading.offer else [])])
        ruling = tuple(own if answer == word else frozenset() for answer in answers)
        if not one.sought:
            found.append(Choice(writer, answers, (frozenset(one.signs),), ruling, frozenset([answers.index(wanted[at])])))
    return found


def learn(choices: Sequence[Choice], ridge: float) -> Weights:
    """The weights under which the right options are likeliest, with a penalty of ridge/2 times the square of each."""
    kept = [choice for choice in choices if choice.right]
    answers = list(dict.fromkeys(answer for choice in kept for answer in choice.answers))  # the same in each ad
    seen = Counter(sign for choice in kept for sign in frozenset().union(*choice.signs))
    column = {sign: at for at, sign in enumerate(sorted(sign for sign, count in seen.items() if count >= LEAST_SEEN))}
    rows = [own for choice in kept for own in choice.signs]
    entries = [(row, column[sign]) for row, own in enumerate(rows) for sign in own if sign in column]
    table = csr_matrix((np.ones(len(entries)), tuple(zip(*entries, strict=True))), shape=(len(rows), len(column)))
    # Where options share their signs each answer has weights of its own; else all options have the same.
    sizes = np.array([len(choice.answers) for choice in kept])
    chosen = np.array([at in choice.right for choice in kept for at in range(len(choice.answers))])
    starts, ad = np.r_[0, np.cumsum(sizes)[:-1]], np.repeat(np.arange(len(kept)), sizes)

    def loss(flat: Any) -> tuple[float, Any]:  # noqa: ANN401 - arrays
        weights = flat.reshape(len(column), len(answers))
        sums = (table @ weights).ravel()
        odds = np.exp(sums - np.maximum.reduceat(sums, starts)[ad])
        whole, of_right = np.add.reduceat(odds, starts), np.add.reduceat(odds * chosen, starts)
        slope = (odds / whole[ad] - odds * chosen / of_right[ad]).reshape(len(rows), len(answers))
        total = float(np.log(whole).sum() - np.log(of_right).sum() + ridge / 2 * flat @ flat)
        return total, (table.T @ slope + ridge * weights).ravel()

    found = minimize(loss, np.zeros(len(column) * len(answers)), jac=True, method="L-BFGS-B", options={"maxiter": 300}).x
    by_answer = found.reshape(len(column), len(answers))
    return {answer: {sign: float(by_answer[row, at]) for sign, row in column.items()} for at, answer in enumerate(answers)}


def against_rules(question: str, choices: Sequence[Choice]) -> tuple[float, dict[str, float]]:
    """How much what was learned counts against what the rules say: fitted on fresh writers, by weights learned without them."""
    rows: list[tuple[list[float], Choice]] = []
    writers = sorted({choice.writer for choice in choices} & LAST[question])
    for some in filter(None, (set(writers[at::FOLDS]) for at in range(FOLDS))):
        without = learn([one for one in choices if one.writer not in some], RIDGE[question])
        rows += [(one.sums(without), one) for one in choices if one.writer in some and one.right]
    names = sorted({sign for _, one in rows for own in one.rules for sign in own})
    if not rows:
        return 1.0, {}

    def loss(weights: Any) -> float:  # noqa: ANN401 - an array
        by_name = dict(zip(names, weights[1:], strict=True))
        total = RIDGE_LAST / 2 * float(weights[1:] @ weights[1:])
        for sums, one in rows:
            scores = np.array(
                [weights[0] * score + sum(by_name[sign] for sign in own) for score, own in zip(sums, one.rules, strict=True)]
            )
            odds = np.exp(scores - scores.max())
            total -= float(np.log(odds[list(one.right)].sum() / odds.sum()))
        return total

    found = minimize(loss, np.array([1.0, *(0.0 for _ in names)]), method="L-BFGS-B").x
    return float(found[0]), dict(zip(names, map(float, found[1:]), strict=True))


def right_of(choices: Sequence[Choice], weights: Weights, scale: float = 1.0, rules: Mapping[str, float] | None = None) -> int:
    """Of how many ads the likeliest option is right."""
    found = 0
    for choice in choices:
        ruling = [sum((rules or {}).get(sign, 0.0) for sign in own) for own in choice.rules]
        sums = [scale * plain + ruled for plain, ruled in zip(choice.sums(weights), ruling, strict=True)]
        found += sums.index(max(sums)) in choice.right
    return found


def _rules_right(choices: Sequence[Choice]) -> int:
    found = 0
    for choice in choices:
        at = next((at for at, own in enumerate(choice.rules) if own & {"said", f"{BY_RULES}chosen"}), len(choice.answers) - 1)
        found += at in choice.right
    return found


def _tried(question: str, choices: Sequence[Choice]) -> None:
    for writer in sorted({choice.writer for choice in choices} & FRESH):
        others = [choice for choice in choices if choice.writer != writer]
        own = [choice for choice in choices if choice.writer == writer]
        base = learn(others, RIDGE[question])
        scale, rules = against_rules(question, others)
        both = right_of(own, base, scale, rules)
        print(
            f"{question} {writer:12} of {len(own)}: rules {_rules_right(own)}, signs {right_of(own, base)}, both {both}",
            flush=True,
        )


def _write(question: str, choices: Sequence[Choice]) -> None:
    scale, rules = against_rules(question, choices)
    found = {
        answer: {sign: weight * scale for sign, weight in own.items()} for answer, own in learn(choices, RIDGE[question]).items()
    }
    if question == PRICE:
        found[IT] |= rules
    else:
        for answer, own in found.items():
            for how in ("said", "plainly"):  # the second of a sale alone
                own[f"{BY_RULES}{how} {answer}"] = rules.get(how, 0.0) + rules.get(f"{how} {answer}", 0.0)
    kept = {
        answer: {sign: round(weight, 2) for sign, weight in sorted(own.items()) if abs(weight) >= LEAST_WEIGHT}
        for answer, own in found.items()
    }
    WEIGHTS.mkdir(exist_ok=True)
    (WEIGHTS / f"{question}.json").write_text(json.dumps(kept, indent=0, ensure_ascii=False) + "\n", encoding="utf-8")
    print(f"{question}: {sum(map(len, kept.values()))} weights, {scale:.2f} of what was learned beside {rules}")


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Learn the weights of signs from the labelled ads.")
    parser.add_argument("--try", dest="tried", action="store_true", help="only try them on writers they were not learned from")
    arguments = parser.parse_args()
    every = for_learning()
    if not arguments.tried:
        MADE_OF.write_text(made_of(every) + "\n", encoding="utf-8")
    for asked, choices_of in (
        (PRICE, price_choices),
        (NO_SUM, silent_choices),
        (SALE, sale_choices),
    ):  # the sale's signs need the price read
        (_tried if arguments.tried else _write)(asked, choices_of(every))

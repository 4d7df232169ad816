"""Whether it is the writer who seeks: "ISO T412 engine", "anybody got a T412?". What a seller wants besides does not count."""

from __future__ import annotations

import re

from interchange.ads.fields import Span

_OPENS = 90  # signs from the beginning within which a post says what it is
_SEEKS = re.compile(
    r"(?:^|(?<=[\n.!?:;,(-])|(?<=[.!?:;,(-] )|(?<=\b[Ii] )|(?<=\b[Ww]e )|(?<=\bam )|(?<=[Ii]['’]m )|(?<=\b[Ii]m ))"
    r"[ \t*]{0,3}"
    r"(?P<said>(?:iso|wtb|lf|wanted|want(?:ing|ed)? to (?:buy|purchase|find)|looking (?:for|to buy|to purchase)"
    r"|in search of|in the market for"
    r"|in (?:desperate )?need of|searching for|trying to (?:find|locate|track down)|hunting(?: for)?|seeking"
    r"|hoping (?:some\w{3,4}|to find)"
    r"|who (?:has|'s got|got|is parting|is selling)|(?:does |do |has |is |did )?any(?:one|body|1) (?:got|have|has"
    r"|parting|selling|know where|out there)"
    r"|after an?|buying|will (?:buy|pay)|cash (?:paid )?for|need(?:ing)?(?= an?\b| one\b| the\b| some\b|:| (?-i:[A-Z]))"
    r"|gesucht|suche|cherche|busco|szukam|sökes)(?![\w-]))",
    re.IGNORECASE,
)
_FORM = re.compile(
    r"(?:^|\n)[ \t]{0,3}(?:(?:ad |listing |post |request )?type|category|purpose"
    r"|request)[ \t]{0,2}:[ \t]{0,3}[^\n]{0,40}?(?P<said>wanted|want to buy|buying|wtb)\b",
    re.IGNORECASE,
)
_SELLS = re.compile(
    r"\b(?:for sale|4 sale|fs|f/s|fs/ft|ft|swap|trade|selling|sell|asking|obo|o\.b\.o|firm|priced?|i have (?:an?|two|the)|got an?"
    r"|takes it|make offer)\b|\$[ ]?[0-9]",
    re.IGNORECASE,
)
_OF_OTHERS = re.compile(
    r"\b(?:you(?:'re| are)?|any(?:one|body)(?: is| who is| that is)?|some(?:one|body)|everyone|people|nobody|not"
    r"|no longer|if|was|were|who|also|now|still)[ ]{1,2}\Z",
    re.IGNORECASE,
)
_NEEDS_WORK = re.compile(
    r"[ ](?:an?|the|some|new|one)?[ ]{0,1}(?:new )?(?:head ?gasket|gasket|work|rebuild|rings|injectors?"
    r"|starter\b[^?]{0,4}\.|clutch|tires?|paint|battery|home|room|space|gone|money|cash|it gone)\b",
    re.IGNORECASE,
)


_ANSWERS = re.compile(r"[ \t\n]{0,4}(?:subject: ?)?(?:re|fwd?|aw):[^\n]{0,120}\n", re.IGNORECASE)
_NOT_SOUGHT = re.compile(
    r"[ ](?:to (?!buy|purchase|find)|it\b|them\b|(?:between |around |about |to get )?\$?[0-9])", re.IGNORECASE
)


def seeks(text: str) -> Span | None:
    """The words by which the writer says that he seeks and does not sell; None where he sells, or seeks something besides."""
    form = _FORM.search(text[: 4 * _OPENS])
    if form:
        return Span(*form.span("said"))
    answered = _ANSWERS.match(text)  # what the post that is answered was called
    for match in _SEEKS.finditer(text[: 2 * _OPENS], answered.end() if answered else 0):
        start = match.start("said")
        if start > _OPENS:
            return None
        before = text[:start]
        if _SELLS.search(before):
            return None
        if _OF_OTHERS.search(before) or (match["said"].lower().startswith("need") and _NEEDS_WORK.match(text, match.end())):
            continue
        if match["said"].lower() in ("wanted", "looking for") and _NOT_SOUGHT.match(text, match.end()):
            continue
        return Span(*match.span("said"))
    return None

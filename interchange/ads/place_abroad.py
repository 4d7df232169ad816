"""Places outside the United States, by how people write them: a postcode, a land's name or letters, an Australian state."""

from __future__ import annotations

import re

from interchange.ads.fields import PlaceRead, Span
from interchange.ads.place_person import is_first_name

LANDS = (
    "France|Germany|Deutschland|West Germany|Ireland|Eire|Northern Ireland|Republic of Ireland|Scotland|Schottland|England|Wales"
    "|United Kingdom|Great Britain|UK|U\\.K\\.|Australia|New Zealand|N\\.Z\\.|NZ|Netherlands|The Netherlands|Nederland"
    "|Niederlande"
    "|Holland|Belgium|Belgique|België|Belgien|Denmark|Danmark|Dänemark|Sweden|Sverige|Schweden|Norway|Norge|Norwegen"
    "|Poland|Polska"
    "|Polen|Austria|Österreich|Oesterreich|Italy|Italia|Italien|Spain|España|Spanien|Mexico|México|Finland|Suomi|Switzerland"
    "|Schweiz|Suisse|Portugal|Czechia|Czech Republic|Slovakia|Slovenia|Hungary|Romania|Bulgaria|Greece|Croatia|Serbia|Estonia"
    "|Latvia|Lithuania|Luxembourg|Luxemburg|South Africa|RSA|Brazil|Brasil|Argentina|Chile|Turkey|India|Japan|Iceland|Ukraine"
)
_CODES = (
    "AUT|GER|FIN|IRL|ITA|ESP|FRA|NED|BEL|GBR|AUS|ROU|AT|CH|FR"
    "|IT|ES|PL|CZ|SK|BE|DK|SE|NO|FI|IE|GB|UK|PT|HU|AU|NZ|ZA|LU|RO|NL|[DABFISN]"
)
LAND_CODES = frozenset(_CODES.rpartition("|")[0].split("|"))
LAND_NAMES = frozenset(name.replace("\\", "").lower() for name in LANDS.split("|")) | {"eu", "europe"}
_END = r"(?![\w'’]|-\w)"
_WORD = r"[A-ZÄÖÜÅØÆŁŚŻČŠŽÉ][^\W\d_]{1,20}(?:['’-][^\W\d_]{1,20}){0,3}"
_TOWN = (
    rf"(?:St\.?[ ])?{_WORD}"
    rf"(?:[ ](?:(?:am|an der|a\.d\.|den|de|du|la|le|les|sur|upon|on|in|im|i|pod|nad|der|op|aan|of)[ ])?{_WORD}){{0,2}}"
)
_LEAD = (
    r"(?:(?:Near|In|At|Nr|Outside|Just outside|Place|Close to|Visible (?:at|in)|Collection|Collect|Abholung|Standort|Raum"
    r"|Viewing|Located|Location"
    r"|Standplaats"
    r"|Pickup|Pick up|From|Stands|Standing|Stored|Sits|Kept|Parked|Lies|Available|Based|Here|Now)[ ](?:(?:in|at|from)[ ])?)?"
)
_POSTCODED = re.compile(
    r"(?<![\w-])(?P<land>AT|A|DE|D|CH|F|FR|NL|I|IT|ES|PL|CZ|BE|B|DK|DK|SE|S|N|NO|GB|UK)-(?P<code>[0-9]{4,5}|[0-9]{2}-[0-9]{3}"
    r"|[0-9]{3} [0-9]{2})[ ](?P<town>[^\W\d_][\w'’-]{1,30}(?:[ /][^\W\d_][\w'’-]{1,30}){0,2})"
)
_POSTCODE_AND_LAND = re.compile(
    rf"(?<![\w$€£.,-])(?P<code>[0-9]{{4,5}}(?:[ ]?[A-Z]{{2}})?)[ ](?P<town>{_TOWN})[ ]?(?:,[ ]?|\()"
    rf"(?P<land>{LANDS}|{_CODES}){_END}"
)
_NAMED = re.compile(
    rf"(?<![\w'’-]){_LEAD}(?P<first>{_TOWN}|{_WORD}(?:[ ]&?[ ]?{_WORD}){{0,4}})(?:[ ]\([A-Z]{{2}}\))?,[ ]"
    rf"(?:(?P<second>(?:Co\.?[ ])?{_TOWN}),[ ])?(?P<land>{LANDS}){_END}"
    rf"|(?<![\w'’-]){_LEAD}(?P<kiwi>{_WORD}(?:[ ]{_WORD})?),?[ ]NZ{_END}"
)
_BRACKETED = re.compile(rf"(?<![\w'’-]){_LEAD}(?P<town>{_TOWN})[ ]?[(\[](?P<land>{LANDS}|{_CODES}){_END}[)\]]")
_COUNTY = re.compile(
    rf"(?<![\w'’-]){_LEAD}(?P<town>{_TOWN}),[ ](?P<county>Lincs|Yorks|Lancs|Staffs|Notts|Cambs|Herts|Hants|Wilts|Glos"
    rf"|Worcs|Salop|Northants"
    r"|Leics|Derbys|Oxon|Warks|Ches|Shropshire|Lincolnshire|Herefordshire|Aberdeenshire|Cumbria|Co\.?[ ](?:Antrim"
    r"|Armagh|Carlow|Cavan|Clare"
    r"|Cork|Derry|Donegal|Down|Dublin|Fermanagh|Galway|Kerry|Kildare|Kilkenny|Laois|Leitrim|Limerick|Longford|Louth"
    r"|Mayo|Meath|Monaghan"
    r"|Offaly|Roscommon|Sligo|Tipperary|Tyrone|Waterford|Westmeath|Wexford|Wicklow|Durham))(?![\w'’])"
)
_AUSTRALIAN = re.compile(
    rf"(?<![\w'’-]){_LEAD}(?P<town>{_TOWN})[ ]?,?[ ]{{1,2}}(?P<state>NSW|N\.S\.W\.|QLD|Qld|VIC|Vic|TAS|Tas"
    rf"|ACT|(?i:New South Wales"
    rf"|Queensland|Victoria|Tasmania|South Australia|Western Australia|Northern Territory)){_END}"
)
_AUSTRALIAN_STATES = {
    "new south wales": "NSW", "queensland": "QLD", "victoria": "VIC", "tasmania": "TAS", "south australia": "SA",
    "western australia": "WA", "northern territory": "NT",
}  # fmt: skip
_FIRM = re.compile(
    r"\b(?:gmbh|ag|kg|ohg|b\.?v\.?|n\.?v\.?|s\.?a\.?(?:r\.?l\.?|s\.?)?|s\.?r\.?l\.?|s\.?p\.?a\.?|ltd|limited|plc|inc"
    r"|llc|pty|co|aps|oy|ab"
    r"|sp|ets|fa|firma|sons|bros|brothers|söhne|\w*(?:export|handel|handlung|motoren|motors|machines?|machinery"
    r"|landtechnik|technik"
    r"|service|tractors|traktoren|matériel|agricole|agri|plant|parts|teile|spares|engines|diesels?|hire|garage|works"
    r"|werk|maskiner"
    r"|trading|import|services|equipment|salvage|dismantlers|breakers|yard|farm|verkauf|sales|onderdelen|techniek|bedrijf))\b",
    re.IGNORECASE,
)
_REGION = re.compile(
    r"(?:co\.?[ ].+|county[ ].+|.+shire|.+(?:land|gau|wald|phalia)|bavaria|bayern|saxony|sachsen|hesse|hessen"
    r"|overijssel|gelderland"
    r"|drenthe|limburg|brabant|noord-brabant|utrecht|flevoland|zeeland|tirol|tyrol|styria|steiermark|kärnten|brittany"
    r"|bretagne|normandy"
    r"|normandie|munster|leinster|ulster|connacht|kent|norfolk|suffolk|essex|sussex|devon|cornwall|dorset|somerset"
    r"|surrey|cumbria|fife"
    r"|powys|durham|jutland|jylland|fyn|skåne|lombardy|tuscany|veneto|andalusia|antrim|tyrone|armagh|canterbury|otago|waikato"
    r"|taranaki|vic|nsw|qld|wa|sa|tas|victoria|queensland|tasmania|galway|mayo|kerry|cork|donegal|monaghan|cavan|meath)",
    re.IGNORECASE,
)


def read_abroad(text: str) -> list[PlaceRead]:
    """Every place that its own words put outside the United States."""
    found: list[PlaceRead] = []

    def add(span: tuple[int, int], town: str, note: str, state: str | None = None, certainty: float = 0.8) -> None:
        if not any(one.span.start < span[1] and span[0] < one.span.end for one in found):
            found.append(PlaceRead("abroad", town, state, None, None, None, text[slice(*span)], Span(*span), certainty, note))

    for match in _POSTCODED.finditer(text):
        add(match.span(), match["town"], f"postcode {match['land']}-{match['code']}")
    for match in _POSTCODE_AND_LAND.finditer(text):
        add(match.span(), match["town"], f"postcode {match['code']}, {match['land']}")
    for match in _AUSTRALIAN.finditer(text):
        state = match["state"].replace(".", "")
        add(match.span(), match["town"], "abroad: Australia", _AUSTRALIAN_STATES.get(state.lower(), state.upper()), 0.9)
    for match in _COUNTY.finditer(text):
        add(match.span(), match["town"], f"abroad: {match['county']}")
    for match in _NAMED.finditer(text):
        if match["kiwi"] and _FIRM.search(match["kiwi"]):
            continue
        town = match["kiwi"] or _town_of(match["first"], match["second"])
        add(match.span(), town, f"abroad: {match['land'] or 'New Zealand'}")
    for match in _BRACKETED.finditer(text):
        if match["land"] not in ("NL", "DE", "I", "S", "A", "B", "F", "N", "D") or match["land"] == "NL":
            add(match.span(), match["town"], f"abroad: {match['land']}")
    return found


def _town_of(first: str, second: str | None) -> str:
    """Of "Moreau Agricole, Cholet, France" the second, of "Ludlow, Shropshire, England" the first."""
    if second is not None and is_first_name(first):
        return second  # "Lars, Växjö, Sweden"
    if second is None or _REGION.fullmatch(second):
        return first
    return second if _FIRM.search(first) or " " in first else first


_DEPARTMENT = re.compile(rf"(?<![\w'’-]){_LEAD}(?P<town>{_TOWN})[ ]?\((?:[0-9]{{1,3}}|[A-Z]{{1,3}})\)")
_CODED = re.compile(rf"(?<![\w$€£.,-])[0-9]{{4,5}}(?:[ ]?[A-Z]{{2}})?[ ](?P<town>{_TOWN})")
_CUED = re.compile(
    rf"\b(?i:visible (?:à|at|in|on)|visible|standort:?|raum|nähe|abholung(?: in)?|abzuholen in|abholbar in|steht in"
    rf"|standplaats:?|af te halen"
    rf"(?: in| te)?|op te halen in|te bezichtigen in|ubicación:?|ubicado en|se encuentra en|ritiro(?: a)?|visibile a"
    rf"|si trova a|lokalizacja:?"
    rf"|odbiór(?: w)?|hämtas i|finns i|står i|afhentes i|hentes i|à retirer (?:à|sur)|à voir (?:à|sur)|collect(?:ion"
    rf"|ed)?(?: only)?(?: from"
    rf"| in| at)?|collects|buyer (?:to )?collects?(?: from)?|viewing(?: in| at)?|ships? from|shipped from|posted from"
    rf"|dispatch(?:ed)? from"
    rf"|sold from|located(?: in| at| near)?|location:?|pick ?up(?: in| from| at)?|based(?: in| at)|ex (?:yard|works|store),?"
    rf"|based|stands? (?:in|at)|standing (?:in|at)|can be seen (?:in|at)|to be seen (?:in|at)|our yard (?:in|at)"
    rf"|from [a-z]{{4,12}})"
    rf"[ ]?,?[ ](?:[0-9]{{4,5}}(?:[ ][A-Z]{{2}})?[ ])?(?P<town>{_TOWN})"
)
_IN = re.compile(rf"\b(?i:in|at|near|bei|nähe|outside|chez|à)[ ](?![A-Z]{{2,4}}\b)(?P<town>{_TOWN})")
FIRM_WORDS = _FIRM
FIRM_AFTER = re.compile(
    r"\b(?:salvage|machinery|motors|implement|equipment|auctions?|auctioneers?|sons|bros|brothers|repair|supply|inc|llc"
    r"|ltd|co|gmbh)\b",
    re.IGNORECASE,
)


def guesses_abroad(text: str) -> list[tuple[Span, float]]:
    """Where a town would stand in an ad from abroad, by a postcode, a department, or words in its own language."""
    found: list[tuple[Span, float]] = []
    for pattern, certainty in ((_CUED, 0.34), (_DEPARTMENT, 0.33), (_CODED, 0.32), (_IN, 0.29)):
        found += [(Span(*match.span("town")), certainty) for match in pattern.finditer(text)]
    return found

"""The words and letters of the states, how a town and a ZIP are written, and words that begin, end or rule out a town."""

from __future__ import annotations

STATES = {
    "AL": "Alabama", "AK": "Alaska", "AZ": "Arizona", "AR": "Arkansas", "CA": "California", "CO": "Colorado", "CT": "Connecticut",
    "DE": "Delaware", "DC": "District of Columbia", "FL": "Florida", "GA": "Georgia", "HI": "Hawaii",
    "ID": "Idaho", "IL": "Illinois",
    "IN": "Indiana", "IA": "Iowa", "KS": "Kansas", "KY": "Kentucky", "LA": "Louisiana", "ME": "Maine", "MD": "Maryland",
    "MA": "Massachusetts", "MI": "Michigan", "MN": "Minnesota", "MS": "Mississippi", "MO": "Missouri", "MT": "Montana",
    "NE": "Nebraska", "NV": "Nevada", "NH": "New Hampshire", "NJ": "New Jersey", "NM": "New Mexico", "NY": "New York",
    "NC": "North Carolina", "ND": "North Dakota", "OH": "Ohio", "OK": "Oklahoma", "OR": "Oregon", "PA": "Pennsylvania",
    "RI": "Rhode Island", "SC": "South Carolina", "SD": "South Dakota", "TN": "Tennessee", "TX": "Texas", "UT": "Utah",
    "VT": "Vermont", "VA": "Virginia", "WA": "Washington", "WV": "West Virginia", "WI": "Wisconsin", "WY": "Wyoming",
    "ON": "Ontario", "QC": "Quebec", "NB": "New Brunswick", "NS": "Nova Scotia", "PE": "Prince Edward Island", "MB": "Manitoba",
    "SK": "Saskatchewan", "AB": "Alberta", "BC": "British Columbia", "NL": "Newfoundland", "YT": "Yukon", "NU": "Nunavut",
}  # fmt: skip
STATE_BY_NAME = {name.lower(): code for code, name in STATES.items()}
# Codes that are also words or units: believed only with a comma or a ZIP, and in capitals or at the end.
WORDLIKE = frozenset([
    "AL", "CO", "DE", "HI", "ID", "IN", "LA", "MA", "ME", "MO", "MS", "OH", "OK", "ON", "OR", "PA", "PE", "AB",
])  # fmt: skip
OLD_FORMS = {
    "penna": "PA", "penn": "PA", "mass": "MA", "conn": "CT", "calif": "CA", "tenn": "TN", "wisc": "WI",
    "minn": "MN", "mich": "MI",
    "tex": "TX", "ala": "AL", "ariz": "AZ", "ark": "AR", "colo": "CO", "del": "DE", "fla": "FL", "ill": "IL", "kans": "KS",
    "mont": "MT", "nebr": "NE", "neb": "NE", "nev": "NV", "okla": "OK", "ore": "OR", "wash": "WA", "wis": "WI", "wyo": "WY",
    "ind": "IN", "québec": "QC",
    "s dak": "SD", "n dak": "ND", "w va": "WV", "man": "MB",
    "miss": "MS", "alta": "AB", "sask": "SK", "ont": "ON", "que": "QC", "pei": "PE", "p.e.i": "PE",
    "nfld": "NL", "long island": "NY",
}  # fmt: skip
DOUBTED_FORMS = frozenset(
    ["ill", "man", "ind", "miss", "del", "ore", "wash", "mass", "penn", "neb", "nev", "mont", "wis"]
)  # also words

CODE = "|".join(STATES)
_FIRST_LETTERS = sorted({name[0] for name in STATES.values()})
# By first letter, so that most words are passed over at their first sign.
STATE_NAME = "|".join(
    f"[{letter}{letter.lower()}](?:{'|'.join(name[1:].replace(' ', '[ ]') for name in STATES.values() if name[0] == letter)})"
    for letter in _FIRST_LETTERS
)
STATE = rf"(?:(?P<code>{CODE}|{CODE.lower()})|(?P<name>(?i:{STATE_NAME}))|(?P<old>(?i:{'|'.join(OLD_FORMS)})\.?))"
STATE_DOTTED = STATE.replace(
    "(?P<code>",
    "(?P<code>(?:Vt|Me|Pa|Va|Ga|Ky|Md|Ia|Ct|Tn|Mo)(?=\\.)|(?:Tx|Ks|Tn|Nm|Az|Ut|Mt|Wy|Sd|Nd|Wi|Mn|Il|Ky|Ny|Nc|Sc|Ga|Al"
    "|Fl|Ca|Wa)\\b|",
)
_PART = r"(?:(?:St|Mt|Ft|Pt|N|S|E|W|Mc)\.|[A-Z][A-Za-z'’-]{1,20}|(?:St|Mt|Ft|Pt|N|S|E|W|Mc))"
TOWN = rf"{_PART}(?:[ ](?:(?:du|de|des|del|la|le)[ ]|d['’])?{_PART}){{0,3}}"  # Fond du Lac, Coeur d'Alene
LOWER_TOWN = r"[a-z][a-z'’-]{1,20}(?:[ ][a-z][a-z'’-]{1,20}){0,3}"
ZIP = r"(?P<zip>[0-9]{5})(?:-[0-9]{4})?(?![\w]|[.,-][0-9])"
END = r"(?![\w'’]|-\w)"

TOWN_STARTS = frozenset([
    "great", "good", "long", "white", "black", "blue", "cash", "live", "big", "little", "new", "old", "high", "low",
    "north", "south", "east", "west", "grand", "cold", "hot", "rock", "head", "center", "port", "main", "power",
    "front", "wheel", "bell", "forks", "falls", "mount", "lake", "fan",
])  # fmt: skip
TOWN_ENDS = frozenset(["city", "town", "lake", "park", "block", "head", "port", "creek", "center", "rock", "forge", "mills"])
NOT_TOWNS = frozenset([
    "the", "a", "an", "in", "at", "is", "it", "its", "and", "or", "of", "on", "from", "near", "to", "for", "with",
    "my", "our", "this", "that", "located", "location", "pickup", "pick", "up", "by", "around", "area", "about",
    "here", "just", "sits", "sitting", "stored", "machine", "runs", "good", "great", "engine", "motor", "tractor",
    "loader", "parts", "only", "text", "call", "price", "obo", "firm", "cash", "complete", "diesel", "gas",
    "gasoline", "block", "long", "short", "core", "transmission", "pump", "hydraulic", "sale", "used", "rebuilt",
    "backhoe", "dollars", "bucks", "skid", "steer", "forklift", "running", "unit", "listed", "posted",
    "ago", "days", "weeks", "day",
    "week", "today", "seller", "yard", "farm", "come", "look", "see", "live", "miles", "hours", "each", "delivered",
    "delivery", "ships", "ship", "shipping", "local", "have", "has", "title", "no", "not", "any", "offer", "best",
    "make", "me", "let", "know", "please", "hi", "thanks", "we", "are", "city", "town", "zip", "turns", "hand",
    "standplaats", "standort", "raum", "abholung", "collection", "vhb", "poids", "peso", "gewicht",
    "knocks", "out", "take", "trade", "will", "can", "do",
    "project", "dead", "blown", "nr", "art", "stock", "ref", "item", "serie", "type", "typ",
])  # fmt: skip
NICKNAMES = {
    "OKC": ("Oklahoma City", "OK"), "SLC": ("Salt Lake City", "UT"), "NYC": ("New York", "NY"), "ABQ": ("Albuquerque", "NM"),
    "KCMO": ("Kansas City", "MO"), "KCK": ("Kansas City", "KS"), "STL": ("Saint Louis", "MO"), "PDX": ("Portland", "OR"),
    "NOLA": ("New Orleans", "LA"), "Philly": ("Philadelphia", "PA"), "Cincy": ("Cincinnati", "OH"), "Jax": ("Jacksonville", "FL"),
    "Vegas": ("Las Vegas", "NV"), "Indy": ("Indianapolis", "IN"),
}  # fmt: skip
"""Short names that stand for one city (from memory)."""

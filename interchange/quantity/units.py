"""Every unit that is read, by dimension, as the exact size of one in the dimension's base unit."""

from __future__ import annotations

from fractions import Fraction

# The exact definitions all else follows from (NIST SP 811, appendix B, from memory). Years are Julian.
IN = Fraction("25.4")  # mm
FT = 12 * IN
MI = Fraction("1.609344")  # km
LB = Fraction("0.45359237")  # kg
G = Fraction("9.80665")  # m/s2
FT_LBF = LB * G * FT / 1000  # N·m
HP = 550 * FT_LBF / 1000  # kW
PS = 75 * G / 1000  # kW: the metric horsepower, 75 kgf·m/s
PSI = LB * G / (IN * IN) * 1000  # kPa
IN3 = IN**3 / 1000  # cm3
GAL_L = 231 * IN3 / 1000  # L: the US gallon
YEAR = Fraction("365.25")  # d; a month is a twelfth of it

DIMENSIONS = {
    "length": "mm", "mass": "kg", "torque": "N·m", "power": "kW", "speed": "rpm", "angle": "deg", "voltage": "V",
    "pressure": "kPa", "displacement": "cm3", "flow": "L/min", "money": "cents", "hours": "h", "days": "d",
    "count": "1", "share": "1", "ratio": "1", "distance": "mi",
    "rate_mile": "cents/mi", "rate_hour": "cents/h", "rate_day": "cents/d",
}  # fmt: skip
"""Each dimension and the base unit its values are in."""

# Spellings in lower case; the first is the one shown in hints. A `·` stands for a dot, a hyphen, a `*` or a blank.
SPELLINGS: dict[str, dict[str, Fraction | int]] = {
    "length": {"mm": 1, "cm": 10, "m": 1000, "in inch inches \" ''": IN, "ft foot feet '": FT, "thou": IN / 1000},
    "mass": {
        "lb lbs pound pounds": LB, "kg kilo kilos": 1, "ton tons short·ton short·tons": 2000 * LB,
        "t tonne tonnes metric·ton metric·tons": 1000,
    },
    "torque": {
        "lb-ft lb·ft lbs·ft lbf·ft ft·lb ft·lbs ft·lbf": FT_LBF, "N·m n·m nm": 1,
        "lb-in lb·in lbf·in in·lb in·lbs in·lbf": FT_LBF / 12,
    },
    "power": {"hp bhp": HP, "kW kw": 1, "PS ps metric·hp": PS},
    "speed": {"rpm r/min rev/min": 1},
    "angle": {"deg degree degrees °": 1},
    "voltage": {"V v volt volts": 1},
    "pressure": {"psi": PSI, "bar": 100, "MPa mpa": 1000, "kPa kpa": 1},
    "displacement": {
        "in3 cu·in cuin cubic·inch cubic·inches ci cid in3/rev": IN3, "cc cm3 ccm cc/rev cm3/rev": 1,
        "L l liter liters litre litres": 1000,
    },
    "flow": {"gpm us·gpm gal/min": GAL_L, "L/min l/min lpm": 1},
    "money": {"$ usd dollar dollars": 100},
    "hours": {"h hr hrs hour hours": 1, "min minute minutes": Fraction(1, 60)},
    "days": {
        "days d day": 1, "wk wks week weeks": 7, "months month mo": YEAR / 12, "years year yr": YEAR,
    },
    "count": {"holes hole": 1, "teeth tooth": 1, "bolts bolt": 1, "pcs pc": 1},
    "share": {"% percent": Fraction(1, 100)},
    "ratio": {":1": 1},
    "distance": {"mi mile miles": 1, "km": 1 / MI},
    "rate_mile": {"/mi /mile": 100, "/km": 100 * MI},
    "rate_hour": {"/h /hr /hour": 100},
    "rate_day": {"/day /d": 100, "/wk /week": Fraction(100, 7)},
}  # fmt: skip
UNITS = {
    dimension: {spelling: Fraction(size) for names, size in rows.items() for spelling in names.split()}
    for dimension, rows in SPELLINGS.items()
}
DOLLARS = {"money", "rate_mile", "rate_hour", "rate_day"}
# What a number without a unit is: dollars (per the mile, hour or day its place is for), a share, a count or a ratio.
BARE = {"share": Fraction(1), "count": Fraction(1), "ratio": Fraction(1)} | dict.fromkeys(DOLLARS, Fraction(100))
SIGNED = {"length", "angle"}

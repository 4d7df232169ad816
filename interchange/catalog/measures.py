"""The types of what a person writes: figures of a dimension, counts, shares and names. The decoder goes by their labels."""

from __future__ import annotations

from typing import Annotated

from interchange.catalog.figure import Figure

# A figure whose quantity has the dimension named.
Length = Annotated[Figure, "length"]
Angle = Annotated[Figure, "angle"]
Mass = Annotated[Figure, "mass"]
Torque = Annotated[Figure, "torque"]
Money = Annotated[Figure, "money"]
Hours = Annotated[Figure, "hours"]
Days = Annotated[Figure, "days"]
Count = Annotated[int, "count"]
Number = Annotated[int, "number"]
"""A count that may be 0."""
Share = Annotated[float, "share"]
Ratio = Annotated[Figure, "share"]
"""A share with its origin."""
Times = Annotated[float, "times"]
"""How many times something else: 1.5."""
Likelihood = Annotated[float, "likelihood"]
"""A likelihood ratio, 0 or more: how much oftener a thing is so where what is asked after is true than where it is not."""
Id = Annotated[str, "id"]

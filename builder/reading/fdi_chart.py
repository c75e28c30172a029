"""The chart of teeth in FDI two-digit notation: which tooth is of which kind and jaw, and where it stands.

ISO 3950:2016, Dentistry, designation system for teeth and areas of the oral cavity: of a permanent tooth the first
digit is the quadrant, clockwise from the patient's upper right, the second its place counted from the midline.
"""

from __future__ import annotations

from ..records import NamedTuple

NOTATION = "FDI"
"""As a field of the situation names it: `tooth: FDI`."""

FIELD = "tooth"
"""The field of the situation that asks for a number of the chart, and its name in the address: #tooth=46."""

_UPPER = ("1", "2")
_KINDS = ("incisor", "incisor", "canine", "premolar", "premolar", "molar", "molar", "molar")


class ChartFactor(NamedTuple):
    """A factor that a number of the chart sets."""

    id: str
    title: str
    asked: str
    """As a field of its own asks for it, where the number is not known."""
    levels: tuple[str, ...]


CHART_FACTORS: dict[str, ChartFactor] = {
    factor.id: factor
    for factor in (
        ChartFactor(
            "tooth-type", "Kind of tooth", "Or which kind of tooth?", ("incisor", "canine", "premolar", "molar")
        ),
        ChartFactor("arch", "Jaw", "Or which jaw?", ("maxillary", "mandibular")),
    )
}
"""Reserved factors by id; no vocabulary defines them."""

CHANGES = "Which tooth it is changes what is known for: "
"""What is said where the number is not known."""


def chart_factor_levels(factor: str) -> tuple[str, ...]:
    """Levels of a factor of the chart; none for any other."""
    return CHART_FACTORS[factor].levels if factor in CHART_FACTORS else ()


def chart_factor_title(factor: str) -> str:
    """The title of a factor of the chart; of any other its id, read as words."""
    return CHART_FACTORS[factor].title if factor in CHART_FACTORS else factor.replace("-", " ")


def chart_levels(number: str) -> dict[str, str]:
    """Level of each factor that a number sets: "46" is a molar of the lower jaw.

    number: two digits, quadrant 1 to 4 and place 1 to 8. Raises ValueError for anything else.
    """
    if number not in NUMBERS:
        raise ValueError(f"{number!r} is not a permanent tooth in two-digit notation")
    jaw = "maxillary" if number[0] in _UPPER else "mandibular"
    return {"tooth-type": _KINDS[int(number[1]) - 1], "arch": jaw}


def consecutive_number(number: str) -> int:
    """The same tooth in the consecutive 1 to 32 notation of North American practice (common practice, no source)."""
    quadrant, place = int(number[0]), int(number[1])
    return {1: 9 - place, 2: 8 + place, 3: 25 - place, 4: 24 + place}[quadrant]


NUMBERS = tuple(
    f"{quadrant}{place}" for quadrant in "1243" for place in (range(8, 0, -1) if quadrant in "14" else range(1, 9))
)
"""All numbers in the order in which they stand when one looks at the patient: the upper row, then the lower one."""

QUARTERS = tuple(tuple(f"{quadrant}{place}" for place in range(1, 9)) for quadrant in "1243")
"""The same by quadrant, from the midline outwards: right and left of the upper jaw, right and left of the lower."""

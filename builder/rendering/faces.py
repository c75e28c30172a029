"""How wide a text is in a typeface, for drawings that place words and numbers beside one another."""

from __future__ import annotations

from collections.abc import Mapping

from ..records import NamedTuple

SIZE = 13.0
"""Font size of the words in a page's drawings."""


class Face(NamedTuple):
    """A typeface as a drawing knows it."""

    family: str
    """The value of `font-family`."""
    widths: Mapping[str, int]
    """Advance of a character in thousandths of the font size."""
    other: int
    """The same of any other character."""

    def width(self, text: str, size: float = SIZE, *, is_bold: bool = False) -> float:
        """Width that a text is given, in the drawing's units: of the same text and size always the same."""
        width = sum(self.widths.get(char) or self.other for char in text) * size / 1000
        return width * _BOLD if is_bold else width


# Bold is as much wider, in both faces, than what the tables say of regular.
_BOLD = 1.09


def _table(widths: Mapping[int, str]) -> dict[str, int]:
    return {char: width for width, chars in widths.items() for char in chars}


SCREEN = Face(
    # The names of `--type` in tokens.css.
    "system-ui, sans-serif",
    _table({290: "iljI.,:;'| ", 380: "rtf()[]-", 860: "mwMW%", 690: "ABCDEFGHKLNOPQRSTUVXYZ"}),
    560,
)
"""The sans serif of whoever looks at it. Its widths are those of a common one; `textLength` makes them true."""

PRINT = Face(
    "'Libertinus Serif', serif",
    _table({
        190: "'|", 220: ",.", 236: ":;", 250: " ·\u00a0", 267: "lij‘’°", 290: "I()!{}\\", 310: "ftJ/\"", 338: "-",
        360: "[]*rŕř“”", 390: "sśşš", 428: "czćçčźžż?", 450: "eèéêëēęěaàáâãäåāăą~", 465: "0123456789#$",
        485: "FSŚŞŠ_ðx", 500: "bvgğ", 505: "oòóôõöøōqdđ", 517: "kyýÿp+<=>±×−≤≥^", 528: "LŁ",
        540: "uùúûüūůhnñńňPß–", 557: "EÈÉÊËĘĚ", 590: "BRŘTYÝ",
        640: "ZŹŽŻ%KCÇČĆ", 661: "VXUÙÚÛÜŪŮ", 702: "AÀÁÂÃÄÅĄÆDĐÐOÒÓÔÕÖØQNÑŃŇ&G@", 735: "HW—w…",
        790: "mœ", 839: "M",
    }),
    560,
)  # fmt: skip
"""What typst brings along, so that a picture and a sheet are the same wherever they are made.

Libertinus Serif 7 as typst measures it, widths that lie near one another taken together.
"""

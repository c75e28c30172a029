"""How wide text is set, without asking a font: advance widths of a common sans serif, never less than it needs."""

from __future__ import annotations

import unicodedata

# In thousandths of the font size; those of Helvetica (Adobe Font Metrics, core fonts), which the usual sans serifs of
# slide programs share.
_REGULAR = {
    191: "'", 222: "ijl‘’", 260: "|", 278: " !,./:;I[\\]ft·\N{NO-BREAK SPACE}", 333: "()-`r“”", 334: "{}", 350: "•",
    355: '"', 389: "*", 400: "°", 469: "^", 500: "Jcksvxyz", 549: "±≥≤", 556: "#$0123456789?L_abdeghnopqu–€",
    584: "+<=>~×−", 611: "FTZßø", 667: "&ABEKPSVXY", 722: "CDHNRUw", 778: "GOQØ", 833: "Mm", 834: "½", 889: "%æ",
    944: "Wœ", 1000: "—…Æ", 1015: "@",
}  # fmt: skip
_BOLD = {
    238: "'", 278: " ,./I\\ijl·‘’\N{NO-BREAK SPACE}", 280: "|", 333: "!()-:;[]`ft", 350: "•", 389: "*r{}", 400: "°",
    474: '"', 500: "z“”", 549: "±≥≤", 556: "#$0123456789J_aceksvxy–€", 584: "+<=>^~×−", 611: "?FLTZbdghnopqußø",
    667: "EPSVXY", 722: "&ABCDHKNRU", 778: "GOQwØ", 833: "M", 834: "½", 889: "%mæ", 944: "Wœ", 975: "@", 1000: "—…Æ",
}  # fmt: skip


def _by_sign(widths: dict[int, str]) -> dict[str, int]:
    return {sign: width for width, signs in widths.items() for sign in signs}


_TABLES = (_by_sign(_REGULAR), _by_sign(_BOLD))

# Signs of other scripts are as wide as they are high.
_WIDEST = 1000

# What another font than these may need more.
_SPARE = 1.03


def text_width(text: str, size: float, *, is_bold: bool = False) -> float:
    """Width in points, at most a little more than it will be. size: of the font, in points."""
    table = _TABLES[is_bold]
    thousandths = sum(table.get(sign) or _other(sign, table) for sign in text)
    return thousandths * size * _SPARE / 1000


def _other(sign: str, table: dict[str, int]) -> int:
    """Of a letter with a mark the width of the letter alone; the marks by themselves take none."""
    found = 0
    for part in unicodedata.normalize("NFKD", sign):
        if not unicodedata.combining(part):
            found += table.get(part, _WIDEST)
    table[sign] = found
    return found


def lines_of(text: str, size: float, width: float, *, is_bold: bool = False) -> list[str]:
    """The text in lines, broken at blanks and, where a word alone is wider than the line, within it.

    width: of the line, in points. An empty text is one line.
    """
    out: list[str] = []
    here = ""
    for word in text.split(" "):
        longer = f"{here} {word}" if here else word
        if text_width(longer, size, is_bold=is_bold) <= width:
            here = longer
            continue
        if here:
            out.append(here)
        while text_width(word, size, is_bold=is_bold) > width and len(word) > 1:
            # The longest beginning that has room.
            end = max(
                (end for end in range(1, len(word)) if text_width(word[:end], size, is_bold=is_bold) <= width),
                default=1,
            )
            out.append(word[:end])
            word = word[end:]
        here = word
    out.append(here)
    return out

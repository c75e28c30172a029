"""How wide text is set, without asking a font: advance widths of a common sans serif, never less than it needs."""

from __future__ import annotations

import unicodedata

# In thousandths of the font size; those of Helvetica (Adobe Font Metrics, core fonts), which the usual sans serifs of
# slide programs share.
REGULAR = {
    191: "'", 222: "ijl‘’", 260: "|", 278: " !,./:;I[\\]ft·\N{NO-BREAK SPACE}", 333: "()-`r“”", 334: "{}", 350: "•",
    355: '"', 389: "*", 400: "°", 469: "^", 500: "Jcksvxyz", 549: "±≥≤", 556: "#$0123456789?L_abdeghnopqu–€",
    584: "+<=>~×−", 611: "FTZßø", 667: "&ABEKPSVXY", 722: "CDHNRUw", 778: "GOQØ", 833: "Mm", 834: "½", 889: "%æ",
    944: "Wœ", 1000: "—…Æ", 1015: "@",
}  # fmt: skip
BOLD = {
    238: "'", 278: " ,./I\\ijl·‘’\N{NO-BREAK SPACE}", 280: "|", 333: "!()-:;[]`ft", 350: "•", 389: "*r{}", 400: "°",
    474: '"', 500: "z“”", 549: "±≥≤", 556: "#$0123456789J_aceksvxy–€", 584: "+<=>^~×−", 611: "?FLTZbdghnopqußø",
    667: "EPSVXY", 722: "&ABCDHKNRU", 778: "GOQwØ", 833: "M", 834: "½", 889: "%mæ", 944: "Wœ", 975: "@", 1000: "—…Æ",
}  # fmt: skip


def _by_sign(widths: dict[int, str]) -> dict[str, int]:
    return {sign: width for width, signs in widths.items() for sign in signs}


_TABLES = (_by_sign(REGULAR), _by_sign(BOLD))

# Signs of other scripts are as wide as they are high.
WIDEST = 1000

# What another font than these may need more.
SPARE = 1.03


def text_width(text: str, size: float, *, is_bold: bool = False) -> float:
    """Width in points, at most a little more than it will be. size: of the font, in points."""
    return _thousandths(text, _TABLES[is_bold]) * size * SPARE / 1000


def _thousandths(text: str, table: dict[str, int]) -> int:
    return sum(table.get(sign) or _other(sign, table) for sign in text)


def _other(sign: str, table: dict[str, int]) -> int:
    """Of a letter with a mark the width of the letter alone; the marks by themselves take none."""
    found = 0
    for part in unicodedata.normalize("NFKD", sign):
        if not unicodedata.combining(part):
            found += table.get(part, WIDEST)
    table[sign] = found
    return found


def lines_of(text: str, size: float, width: float, *, is_bold: bool = False) -> list[str]:
    """The text in lines, broken at blanks and, where a word alone is wider than the line, within it.

    width: of the line, in points. An empty text is one line.
    """
    table = _TABLES[is_bold]
    room = width * 1000 / size / SPARE
    blank = table[" "]
    out: list[str] = []
    here: list[str] = []
    used = 0.0
    for word in text.split(" "):
        needed = _thousandths(word, table)
        if here and used + blank + needed <= room:
            here.append(word)
            used += blank + needed
            continue
        if here:
            out.append(" ".join(here))
        if needed > room:
            *whole, word = _pieces(word, table, room)
            out.extend(whole)
            needed = _thousandths(word, table)
        here, used = [word], needed
    out.append(" ".join(here))
    return out


def _pieces(word: str, table: dict[str, int], room: float) -> list[str]:
    """A word that is wider than a line, each piece as long as has room."""
    out: list[str] = []
    start, used = 0, 0
    for at, sign in enumerate(word):
        needed = table.get(sign) or _other(sign, table)
        if used + needed > room and at > start:
            out.append(word[start:at])
            start, used = at, 0
        used += needed
    return [*out, word[start:]]

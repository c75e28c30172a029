"""What the heading of a column or the head of a row says of its numbers: per cent, years, at risk."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..compiled_patterns import compiled
from ..numerals import Lexicon, Token
from ..numerals.late import late
from .clauses import Span
from .tables import InCell, Table

_COUNT_AND_SHARE = late(r"(?:\bn|\bno\.?|\bnumbers?|\bcounts?|\bn\s*/\s*n)\s*[(\[,]\s*\\?%", re.IGNORECASE)
""" "Healed, n (%)"."""
_SHARE = late(r"\\?%(?!\s*(?:ci\b|confidence|credib|limits?|interval))|\bper\s?cent(?:ages?)?\b", re.IGNORECASE)
_LEVEL = compiled(r"\d\s*\\?%")
""" "95% CI" is no share."""
_AT_RISK = compiled(r"\bat risk\b", re.IGNORECASE)
_TIME = late(
    r"(?:[(\[,]\s*|\bin\s+|^)(?P<unit>day|week|month|year)s?\b\.?\s*(?:[)\]]|$|after\b|from\b|since\b)", re.IGNORECASE
)
_IS_P = compiled(r"\s*\*?p(?:[\s-]*values?)?\W*", re.IGNORECASE)
_BRACKET = compiled(r"[(\[][^()\[\]]*$")
_words_in = compiled(r"[a-z]+(?:-[a-z]+)*").findall


def read_columns(text: str, tokens: Sequence[Token], table: Table, lexicon: Lexicon) -> None:
    """Give the numbers of a table what only its headings say; leave out what words of other rows and columns say."""
    if not table.has_cells:
        return
    firsts: list[Token] = []
    row = first_column = column = nth = -1
    notes = _notes(text, table)
    for token, place in zip(tokens, table.places, strict=True):
        if place is not None and token.kind != "unreadable":
            if place.row != row:
                firsts, row, first_column, nth = [], place.row, place.column, 0
            else:
                nth = nth + 1 if place.column == column else 0
            column = place.column
            if column == first_column:
                firsts.append(token)
            elif nth < len(firsts):  # "11.4 (5.2) | 17.9 (7.7)": the second of a cell is as the second of the first
                _take_spread(token, firsts[nth], text, place, lexicon)
            headings = [text[start:end] for start, end in place.headings]
            heads = [text[start:end] for start, end in place.others if end <= token.start]
            above = [text[start:end] for start, end in place.above]
            _leave_out(token, text, place, headings, lexicon)
            _leave_unit_out(token, text, place, headings, lexicon)
            own = [*headings, *heads[-1:], *above]
            if token.decimals and notes:
                own += notes
            if headings or above:
                _read_heading(token, text, place, own)


_note = late(
    r"\W*(?:(?:values|data|figures|numbers|results|entries)\s+(?:are|is|in|given (?:as|in))\s+)?"
    r"(?:[^;.%\d]{0,80}[,:]\s*)?(?:%|per\s?cent)",
    re.IGNORECASE,
    holds=("%", "cent"),
).match


def _notes(text: str, table: Table) -> list[str]:
    """What stands below the last row and says of its decimals that they are shares: "Values are % (95% CI)"."""
    last = max((at for at, line in enumerate(table.lines) if line.cells), default=-1)
    behind = table.lines[last + 1 :] if last >= 0 else ()
    return [text[line.start : line.end] for line in behind if _note(text, line.start, line.end)]


_SPREADS = frozenset({"mean", "median", "sd", "se", "iqr", "range"})
_find_letter = compiled(r"[^\W\d_]").search


def _take_spread(token: Token, first: Token, text: str, place: InCell, lexicon: Lexicon) -> None:
    """The 1.4 of a row "SD | 1.2 | 1.4" is a deviation too, where its cell and its column say nothing else."""
    if first.role not in _SPREADS or token.roles or token.kind != first.kind or token.part or place.column < 2:
        return
    left = [span for span in place.others if span[1] <= place.cell[0]]
    is_row_of_it = len(left) > 1 and left[-1][1] <= first.start and not _find_letter(text, *place.cell)
    over = " ".join(text[start:end] for start, end in place.headings).lower()
    if is_row_of_it and lexicon.all_roles.keys().isdisjoint(_words_in(over)) and not _find_p(over):
        token.role, token.roles = first.role, (first.role,)


_find_p = compiled(r"\bp\b|differ|effect|\bci\b").search


def _leave_out(token: Token, text: str, place: InCell, headings: list[str], lexicon: Lexicon) -> None:
    """Roles whose words stand neither in the number's row nor over its column."""
    if not token.roles:
        return
    own = " ".join((*(text[start:end] for start, end in (place.cell, *place.others)), *headings)).lower()
    stands_for = lexicon.all_roles
    said = {stands_for.get(word, word) for word in _words_in(own)}
    said |= {role for role in token.roles if role in own}
    kept = tuple(role for role in token.roles if role in said)
    if kept != token.roles and (headings or place.row):
        token.roles = kept
        token.role = token.role if kept else ""


def _leave_unit_out(token: Token, text: str, place: InCell, headings: list[str], lexicon: Lexicon) -> None:
    """What is counted, where its word stands in another row: "39" before a row of "lesion absent"."""
    unit = lexicon.units.get(token.unit)
    if unit is None:
        return
    own = " ".join((text[place.cell[0] : place.cell[1]], *headings)).lower()
    if not any(word in own for word in unit.words):
        token.unit = "none"
        token.kind = "number" if token.kind == "count" and not token.part else token.kind


_ends_in_n = compiled(r"\s*[A-Za-z][^\d]*\bn\s*[=:]\s*$", re.IGNORECASE).match
""" "Cast, ferrule (n = 61)", which is no piece of what the heading lists."""


def _may_be_told_by_heading(token: Token, place: InCell, headings: list[str], *, is_piece: bool) -> bool:
    is_plain = token.kind in ("number", "count") and token.unit == "none" and not token.comparator and not token.part
    is_head = not place.headings or place.column == 0
    is_size = "n" in token.roles and is_head and not is_piece  # "Cast (n = 61)" below a title with "n (%)"
    return is_plain and not is_size and not any(_IS_P.fullmatch(heading) for heading in headings)


def _read_heading(token: Token, text: str, place: InCell, headings: list[str]) -> None:
    at = _pieces_behind(text, place.cell, token.start)
    is_piece = at is not None and _ends_in_n(text[place.cell[0] : token.start]) is None
    if not _may_be_told_by_heading(token, place, headings, is_piece=is_piece):
        return
    is_in_bracket = _BRACKET.search(text, place.cell[0], token.start) is not None
    is_alone = text[place.cell[0] : place.cell[1]].strip() == text[token.start : token.end]
    for whole in headings:
        heading = _piece(whole, at) if at else whole
        if _is_count(heading) and not token.decimals:
            return
        bare = _LEVEL.sub("", heading)
        if _says_share(bare, text, token, place, is_in_bracket=is_in_bracket):
            token.kind, token.unit = "percent", "%"
            token.roles = tuple(role for role in token.roles if role != "n")
            return
        if _says_at_risk(heading, is_in_bracket=is_in_bracket):
            kept = tuple(role for role in token.roles if role not in ("at risk", "n"))
            token.roles, token.role = (*kept, "at risk"), token.role if kept else "at risk"
            return
        if is_alone and (unit := _unit_of_times(heading)):
            token.kind, token.unit = "length", unit
            return
        if _SHARE.search(bare) or _COUNT_AND_SHARE.search(bare):
            return


def _unit_of_times(heading: str) -> str:
    """ "month" of "Time (months)"; "" of a heading that has a time of its own, or none."""
    time = _TIME.search(heading)
    return time["unit"].lower() if time is not None and not any(map(str.isdigit, heading)) else ""


_is_count = late(r"\W*(?:n|no\.?|numbers?(?: of [a-z]+)?|counts?|sample size)\W*", re.IGNORECASE).fullmatch
""" "Treatment | n | Gain" below a title with "per cent"."""
_PIECE = compiled(r"(?:[,;]\s|(?<=[)\]])\s*/|\s/\s)(?![^(\[]*[)\]])")
""" "% (95% CI), at risk" and "71.8 (66.0-76.8), 140": what parts two figures of one cell."""
_HEAD_PIECE = compiled(r"(?:[,;]\s|(?<=[)\]])\s*/|\s/\s|\band\b)(?![^(\[]*[)\]])")


_is_interval = compiled(r"\s*\d+\s*%\s*(?:CI|confidence)[^,;]*", re.IGNORECASE).fullmatch


def _pieces_behind(text: str, cell: Span, at: int) -> tuple[int, int] | None:
    """How many pieces of a cell stand behind that of a number, and how many it has; None of a cell of one."""
    cuts = [found.start() for found in _PIECE.finditer(text, *cell)]
    return (sum(cut > at for cut in cuts), len(cuts) + 1) if cuts else None


def _piece(heading: str, at: tuple[int, int]) -> str:
    """The words of a heading for one piece of the cells below it, where it has words for each.

    at: how many pieces stand behind it, and how many there are.
    """
    behind, count = at
    pieces = _HEAD_PIECE.split(heading)
    if len(pieces) > count:  # "Survival (%), 95% CI and number at risk" over "71.8 (66.0 to 76.8), 140"
        pieces = [piece for piece in pieces if not _is_interval(piece)]
    return pieces[-1 - behind] if len(pieces) >= count else heading


def _says_share(heading: str, text: str, token: Token, place: InCell, *, is_in_bracket: bool) -> bool:
    """Whether a heading says per cent of this number: of the one in brackets under "n (%)", else of the first."""
    if _COUNT_AND_SHARE.search(heading):
        return is_in_bracket
    found = _SHARE.search(heading)
    if found is None:
        return False
    has_bracket = _HAS_BRACKET.search(text, *place.cell) is not None
    is_share_in_bracket = heading[: found.start()].rstrip().endswith(("(", "["))
    if has_bracket:
        return is_in_bracket == is_share_in_bracket
    return not is_in_bracket


_HAS_BRACKET = compiled(r"\d\s*[(\[](?![^()\[\]]*\d\s*(?:[-–−]|to\b)\s*[\d.−-])")
""" "41 (78.8)"; but "71.8 (66.0-76.8)" has its interval there."""


def _says_at_risk(heading: str, *, is_in_bracket: bool) -> bool:
    """ "No. at risk"; in "% (at risk)" the number in brackets."""
    found = _AT_RISK.search(heading)
    if found is None:
        return False
    return is_in_bracket == (_BRACKET.search(heading, 0, found.start()) is not None)

"""Which level a number belongs to: by the words of its clause, its row or column, its heading, its place in a list."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from ...compiled_patterns import compiled
from ...numerals.late import late
from ...printed.beside_whole import figures_of_wholes
from ...printed.clauses import Span
from ...printed.owner import Owner, is_inside
from ...printed.wordings import Names
from ...reading.report_model import Claim, Contrast
from ...reading.values import Words
from ..asking import collapsed, in_quotes, in_yaml
from ..proving.level_names import key_of, names_within
from ..proving.quoted_words import spans_in_order
from ..proving.sharing import is_of_each
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "other-level": (
        "The passage gives a number to another level than the claim does: in the words of its clause, in its row or "
        "column, or by its place in a list (the third name has the third number). Two levels exchanged turn better "
        "into worse. Type the number under the level that the passage gives it to; where the passage means it as it "
        "was typed, answer the question."
    ),
    "level-not-named": (
        "The words of the claim's level stand nowhere in the number's clause, row, heading or list, nor does a synonym "
        "of the vocabulary, so that nothing shows whose number it is. Add what the paper calls the level to the "
        "synonyms of that level in vocabulary.yaml, or quote the words that hold the number in in_words."
    ),
}  # fmt: skip

_SAYS_ALL = late(r"\b(?:each|both|per group|per arm|every|either|apiece)\b", re.IGNORECASE).search
_PREVENTED = "prevented fraction"
_BESIDE = 40
"""Characters beside a total in which "each" speaks of it."""
_MAY_BE_SILENT = frozenset({"total", "starting", "at_risk", "confidence", "of", "at"})
"""Fields that take their level from the numbers they stand beside."""


def find_level_ties(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every number that is typed under a level, and those of a subgroup."""
    claim = ties.scope.claim
    names = ties.scope.names
    if names:
        heard: dict[str, list[bool]] = {}
        silent: dict[str, Stands] = {}
        totals = Counter((id(stands.reading), stands.at) for stands in standing if stands.row.name == "total")
        keys = {name.key for name in names}
        for stands in standing:
            level = _level_of(stands, ties)
            if level in keys:
                is_shared = stands.row.name == "total" and totals[id(stands.reading), stands.at] > 1
                is_heard = _is_heard(stands, level, ties, is_shared=is_shared)
                if is_heard is not None:
                    heard.setdefault(stands.block, []).append(is_heard)
                    silent.setdefault(stands.block, stands)
            elif stands.block.endswith("/contrast") and claim is not None and claim.contrast is not None:
                _find_contrast(stands, claim.contrast, ties)
        for block, found in silent.items() if claim is not None and claim.levels else ():
            if not any(heard[block]):
                _ask_silent(found, ties, known)
    if claim is not None:
        for within in claim.within:
            among = apart_from_outcome(names_within(within, known.factors, known.lexicon), claim, known)
            _find_within(within.level.text, among, standing, ties)


def _is_heard(stands: Stands, level: str, ties: Ties, *, is_shared: bool) -> bool | None:
    """Whether the passage names the level beside the number; None where nobody need ask. is_shared: whether it is the
    total of several levels."""
    if _is_plainly_of(stands, level, ties):
        return True
    return None if is_shared else _find_level(stands, level, ties)


def _is_plainly_of(stands: Stands, level: str, ties: Ties) -> bool:
    """Whether the passage speaks of this level alone, and of nothing else; asked only where nobody looks at the tie."""
    names, reading = ties.scope.names, stands.reading
    return (
        not ties.wanted and reading.sole_owner(names) == level and not is_inside(stands.token, reading.mentions(names))
    )


def _find_level(stands: Stands, level: str, ties: Ties) -> bool | None:
    """Whether the passage names a level beside the number; None where nobody need ask."""
    owner = _owner(stands, ties.scope.names)
    if owner is not None and not owner.key:
        return True
    if owner is not None and owner.key == level:
        if owner.is_sure:
            ties.tie(stands, "level", level, owner.by, *owner.words)
        return True
    if owner is not None and owner.is_sure:
        if not _is_of_all(stands):
            _ask_other(stands, owner, level, ties)
        return True
    if stands.row.within_words:
        pinned = spans_in_order(stands.reading.passage.text, stands.row.within_words)
        ties.tie(stands, "level", level, "reader", *(pinned or ()))
        return True
    return None if stands.row.name in _MAY_BE_SILENT else False


def _find_contrast(stands: Stands, contrast: Contrast, ties: Ties) -> None:
    """A ratio in the row of a third level."""
    names = ties.scope.names
    typed = [words.text for words in (contrast.level, contrast.reference) if type(words) is Words]
    levels = [key_of(words, names) or words for words in typed]
    if not levels or all(name.key in levels for name in names):
        return
    if len(levels) < 2 and not (contrast.measure.text == _PREVENTED and stands.token.kind == "percent"):
        return  # a ratio may stand beside what it is against; a share prevented is told of one alone
    owner = stands.reading.owners(names)[stands.at]
    if owner is None or not owner.is_sure or owner.key in ("", *levels):
        return
    _ask_other(stands, owner, " against ".join(levels), ties)


def _level_of(stands: Stands, ties: Ties) -> str:
    """The wording of the level that a number is typed under."""
    row = stands.row
    contrast = ties.scope.claim.contrast if ties.scope.claim is not None else None
    if not row.level and contrast is not None and row.name in ("level", "reference"):
        words = contrast.level if row.name == "level" else contrast.reference
        return key_of(getattr(words, "text", ""), ties.scope.names) if stands.block.endswith("/absolute") else row.level
    return row.level


def _owner(stands: Stands, names: Names) -> Owner | None:
    """Whose the passage says it is; where it is silent, what the bracket before the passage names."""
    return stands.reading.owners(names)[stands.at] or stands.reading.owner_by_bracket(names)


def _is_of_all(stands: Stands) -> bool:
    """ "20 in each group": the total of every level."""
    text, token = stands.reading.passage.text, stands.token
    if stands.row.name == "events" and is_of_each(text, token.end) is not None:  # "nine cases each"
        return True
    near = text[max(token.start - _BESIDE, 0) : token.end + _BESIDE]
    return stands.row.role.shares == "units" and _SAYS_ALL(near) is not None


def _ask_other(stands: Stands, owner: Owner, level: str, ties: Ties) -> None:
    if owner.by == "words" and is_pinned_away(stands, *owner.words):
        return
    said = stands.printed(*owner.words) or owner.key
    also = "" if said.casefold() == owner.key.casefold() else f' ("{owner.key}")'
    how = " by its place" if owner.by == "position" else ""
    ties.ask(
        stands, "other-level", f'gives it{how} to "{said}"{also}', f'the claim to "{level}"',
        f'where the passage is right, type it under level: {in_yaml(owner.key)}',
    )  # fmt: skip


def apart_from_outcome(names: Names, claim: Claim, known: Known) -> Names:
    """The names without wordings that the outcome's own title holds: "closed" of "open root end has closed"."""
    outcome = known.outcomes.get(claim.outcome.text)
    if outcome is None:
        return names
    title = outcome.title.text.lower().split()
    return tuple(
        name._replace(wordings=tuple(words for words in name.wordings if words.lower() not in title)) for name in names
    )


def _find_within(level: str, names: Names, standing: Sequence[Stands], ties: Ties) -> None:
    """The numbers of a subgroup: no other subgroup's words may hold them, nor those of all."""
    if len(names) < 2:
        return
    of_wholes: dict[int, dict[int, Span]] = {}
    for stands in standing:
        if stands.row.role.shares == "bound" or stands.row.role.kind not in ("count", "percent", "ratio"):
            continue
        reading = stands.reading
        owner = reading.owners(names)[stands.at]
        if owner is not None and owner.is_sure and owner.key == level:
            ties.tie(stands, "group", level, owner.by, *owner.words)
        elif owner is not None and owner.is_sure and owner.key:
            _ask_other(stands, owner, level, ties)
        elif mentions := reading.mentions(names):
            if id(reading) not in of_wholes:  # asked once a passage
                of_wholes[id(reading)] = figures_of_wholes(
                    reading.passage.text, reading.tokens, reading.table, reading.lexicon, mentions, level
                )
            words = of_wholes[id(reading)].get(stands.at)
            if words is not None:
                _ask_of_all(stands, words, level, ties)


def _ask_of_all(stands: Stands, words: Span, level: str, ties: Ties) -> None:
    said = stands.printed(words)
    ties.ask(
        stands, "other-level", f'gives it to "{said}"', f'the claim to "{level}"',
        "where the passage is right, leave out `within`",
    )  # fmt: skip


# A level that the passage does not name


def _ask_silent(stands: Stands, ties: Ties, known: Known) -> None:
    level = _level_of(stands, ties)
    instead = _words_instead(stands)
    says = f'names "{level}" nowhere in the words beside it'
    if instead:
        says += f' (there stands "{instead}")'
    ties.ask(
        stands, "level-not-named", says, f'the claim gives it to "{level}"', _mend(stands, level, instead, ties, known)
    )


def _mend(stands: Stands, level: str, instead: str, ties: Ties, known: Known) -> str:
    claim = ties.scope.claim
    mend = []
    factor = known.factors.get(claim.factor.text) if claim is not None and claim.factor is not None else None
    found = factor.matches(level) if factor is not None else ()
    if factor is not None and len(found) == 1 and instead:
        synonyms = ", ".join(in_yaml(word.text) for word in found[0].synonyms)
        listed = f"{synonyms}, {in_yaml(instead)}" if synonyms else in_yaml(instead)
        mend.append(
            f"if that is what the paper calls it, write in evidence/vocabulary.yaml, factor {factor.factor.id}, "
            f"level {found[0].id.text}:\nsynonyms: [{listed}]"
        )
    mend.append(f"else quote beside the level the words that hold it:\nin_words: {in_quotes(_clause(stands))}")
    return "\n".join(mend)


_PART_END = late(r"[;|\n]|[.](?=\s|$)|,(?=\s)|\band\b|\bwhile\b|\bwhereas\b|\bbut\b|\bversus\b|\bvs\b", re.IGNORECASE)
_CLAUSE_END = compiled(r"[;\n]|[.](?=\s|$)")


def _around(text: str, ends: re.Pattern[str], start: int, end: int) -> str:
    low = max((found.end() for found in ends.finditer(text, 0, start)), default=0)
    behind = ends.search(text, end)
    return text[low : behind.start() if behind else len(text)]


def _clause(stands: Stands) -> str:
    token = stands.token
    return collapsed(_around(stands.reading.passage.text, _CLAUSE_END, token.start, token.end))


def _words_instead(stands: Stands) -> str:
    """What may be the paper's own name of the level: the head of the row, or what else stands in the number's part."""
    reading, token = stands.reading, stands.token
    text = reading.passage.text
    place = reading.cells()[stands.at]
    if place is not None:
        heads = [collapsed(text[start:end]) for start, end in (*place.others, *place.headings)]
        return next((head for head in heads if head[:1].isalpha() and len(head) < 50), "")
    part = _around(text, _PART_END, token.start, max(token.end, token.outer_end))
    part = _WORDS_OF_NUMBERS.sub(" ", part)
    words = part.split()
    passing = _PASSING | reading.lexicon.beside_numbers
    while words and words[0].lower().strip(":,") in passing:
        words.pop(0)
    while words and words[-1].lower().strip(":,") in passing:
        words.pop()
    instead = " ".join(words).strip(" :,=")
    return instead if 0 < len(words) <= 4 and instead[:1].isalpha() else ""


_WORDS_OF_NUMBERS = late(r"\([^()]*\d[^()]*\)|[<>=≤≥]?\s*\d[\d.,·]*\s*%?|[/%]")
_PASSING = frozenset({
    "of", "the", "in", "with", "for", "to", "a", "an", "by", "on", "at", "after", "were", "was", "had", "did", "group",
    "groups", "arm", "and", "only", "those", "all", "it", "they", "cases", "n", "as", "from", "using", "healing",
})  # fmt: skip

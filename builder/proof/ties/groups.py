"""Of whom a figure is, as the passage says it: a part of those studied, where the claim is about all of them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache, partial

from ...compiled_patterns import compiled
from ...numerals import Lexicon, Token
from ...numerals.late import holds_any, late
from ...printed.beside_whole import PartOfWhole, parts_of_wholes
from ...printed.clauses import Span, bracket_around
from ...printed.fewer_studies import STUDIES, of_fewer_studies
from ...printed.groups import (
    AGES,
    ALL,
    Grouping,
    begins,
    has_whole,
    is_head,
    is_lone,
    is_said_first,
    is_said_in,
    is_said_of,
    is_said_with,
    of_ages,
    plain,
    title_of,
)
from ...printed.owner import Owner, Owners
from ...printed.restricted import STEMS, Restricted, counted_among, has_more, restricted
from ...printed.told_beside import content_of
from ...reading.report_model import Claim
from ...reading.values import Number, Words
from ...records import NamedTuple
from ..asking import in_yaml
from ..proving.printed_passage import Reading, beside_in, read_passage
from .groupings import SHORT, Groupings, Own, groupings_of_all, own_words
from .pinned import is_pinned_away
from .tie import Known, Stands, Ties

RULES: dict[str, str] = {
    "figure-of-a-part": (
        "The passage gives a figure to a part of those studied, and the claim, without `within` and `given` or with a "
        '`given` that says all, to all of them. "In women, 12 of 15 healed" says nothing of men, and its share is not '
        "that of the whole. "
        "Type the figure of all, or say in `within` or `given` whose it is; where the part is everybody that was "
        "studied, say so in `population` of the study, or answer the question."
    ),
}

_FIGURES = frozenset({"events", "rate", "success_rate", "value", "mean", "median"})


class _Part(NamedTuple):
    """Words of a passage that name a part, and the number they hold."""

    words: str
    name: str
    factor: str


def find_group_ties(standing: Sequence[Stands], ties: Ties, known: Known) -> None:
    """Every figure of a claim about all that its study holds."""
    claim = ties.scope.claim
    if claim is None or claim.within or claim.quotes is not None or not is_of_everybody(claim, known.lexicon):
        return
    groupings = groupings_of_all(known)
    may_tell = _may_tell_in(groupings)
    if not any(reading.told(may_tell) for reading in ties.readings):
        return
    figures = [stands for stands in standing if stands.row.name in _FIGURES and stands.row.role.kind != "length"]
    own: Own | None = None
    for stands in figures:
        if not stands.reading.told(may_tell):
            continue
        among = stands.reading.told(groupings.said_in)
        own = own or own_words(claim, ties, known)
        part = next(_parts(stands, _without_own(among, claim), own, ties), None)
        if part is not None:
            instead = f"within: [{{factor: {part.factor}, level: {in_yaml(part.name)}}}]" if part.factor else ""
            ties.ask(
                stands, "figure-of-a-part", f'gives it to a part: "{part.words}"', claimed(claim),
                f"where the part is meant, add to the claim: {instead or f'given: {in_yaml(part.words)}'}",
            )  # fmt: skip


def is_of_everybody(claim: Claim, lexicon: Lexicon) -> bool:
    """Whether no `given` restricts a claim: none is typed, or one that says all: "all randomised"."""
    if type(claim.given) is not Words:
        return claim.given is None
    whom, *more = _cut(claim.given.text.lower(), 1)
    words = _find_words(whom)
    is_all = words[:1] in (["all"], ["every"], ["whole"], ["entire"]) or words[:2] in (
        ["the", "whole"],
        ["the", "entire"],
    )
    is_of_some = any(_find_some(each) for each in more)
    return is_all and not is_of_some and all(word in _OF_ALL or word in lexicon.unit_by_word for word in words)


_cut = compiled(r"[,;(]|\bby intention|\bintention").split
_find_words = compiled(r"[a-z]+").findall
_find_some = compiled(
    r"\b(?:with|without|who|whose|which|that|under|over|aged|but|except|only|alone|after|before|seen|protocol)\b"
).search
_OF_ALL = frozenset({
    "all", "every", "whole", "entire", "the", "of", "in", "as", "were", "who", "both", "two", "three", "four", "five",
    "six", "centres", "centers", "sites", "hospitals", "clinics", "practices", "arms", "groups", "together", "study",
    "trial", "cohort", "sample", "series", "group", "randomised", "randomized", "allocated", "included", "enrolled",
    "allotted", "assigned",
    "recruited", "studied", "treated", "participants", "subjects", "people", "cases",
})  # fmt: skip
"""Words of a `given` that restrict nothing: "all female patients" are some."""


def claimed(claim: Claim) -> str:
    """To whom a claim gives its figures, in words for a question."""
    if claim.given is None:
        return "the claim, without `within` and `given`, to all"
    return f"the claim, by its `given: {in_yaml(claim.given.text)}`, to all"


@lru_cache(maxsize=1)  # those of one compendium
def _may_tell_in(groupings: Groupings) -> partial[bool]:
    """Whether a passage may give any number to a part; for `Reading.told`."""
    return partial(_may_tell, groupings)


def _may_tell(groupings: Groupings, reading: Reading) -> bool:
    is_named = bool(reading.told(groupings.said_in)) or bool(reading.told(_in_parts))
    if is_named or not holds_any(reading.small, _STEMS):
        return is_named
    is_counted = any(map(reading.told, (_counted_among, _of_fewer_studies)))
    return is_counted or bool(reading.told(_restricted)) or any(reading.told(_aged))


_STEMS = (*STEMS, *STUDIES, *AGES)
"""Without one of them, in small letters, a passage restricts nothing in so many words."""


def _without_own(groupings: Sequence[Grouping], claim: Claim) -> list[Grouping]:
    """The claim's own factor parts it already."""
    own = claim.factor.text if claim.factor is not None else None
    return [grouping for grouping in groupings if grouping.factor != own]


def _parts(stands: Stands, groupings: Sequence[Grouping], own: Own, ties: Ties) -> Iterator[_Part]:
    """What the passage says whose the number is, where that is a part and not what the claim says of all."""
    reading, at = stands.reading, stands.at
    text = reading.passage.text
    for grouping in groupings:
        owners = reading.owners(grouping.names)
        owner = owners[at]
        headed = _headed(stands, grouping, own, ties) or _beside_a_ratio(stands, grouping, own)
        if headed is not None:
            yield headed
        if owner is None or not _is_told(owner, stands):
            continue
        words = stands.printed(owner.words[0])
        if own.says(words, owner.key) or _names_own_level(stands, owner.words[0], ties):
            continue
        start = owner.words[0][0]
        is_of_others = own.is_of_others(grouping, owner.key) and not is_said_of(text, start)
        is_plain = grouping.is_of_people and is_said_in(text, start)
        if (
            is_of_others
            or (is_plain and not _is_of_all(grouping, owner.key, ties, text))
            or _is_apart(owners, owner, stands, grouping, ties)
            or _is_alone(owner, stands, grouping, ties)
        ):
            yield _Part(words, owner.key, grouping.factor)
    yield from _other_parts(stands, own, ties)


def _headed(stands: Stands, grouping: Grouping, own: Own, ties: Ties) -> _Part | None:
    """The part that the title of a passage, or the bracket before it, names alone: "Outcome in women"."""
    if grouping.factor and grouping.may_begin:  # a treatment may be what all had
        return None
    reading = stands.reading
    title = title_of(reading.passage.text)
    mentions = reading.mentions(grouping.names)
    if title is None or len({mention.key for mention in mentions}) != 1 or not mentions[0].key:
        return None
    first = mentions[0]
    if not title[0] <= first.start < title[1] or stands.token.start < title[1]:
        return None
    words = stands.printed((first.start, first.end))
    is_whole = not reading.passage.text[title[0] : first.start].strip()
    if not (is_whole or is_said_in(reading.passage.text, first.start)) or own.says(words, first.key):
        return None
    named = ties.source.fields.get("title")
    if named is not None and grouping.stands_in(first.key, plain(named.text)):
        return None
    if _is_of_all(grouping, first.key, ties, reading.passage.text) or is_pinned_away(stands, (first.start, first.end)):
        return None
    return _Part(words, first.key, grouping.factor) if _has_more_elsewhere(stands, grouping, first.key, ties) else None


def _has_more_elsewhere(stands: Stands, grouping: Grouping, key: str, ties: Ties) -> bool:
    """Whether another passage names another part, or counts more than the claim does."""
    claim = ties.scope.claim
    total = claim.total.value if claim is not None and type(claim.total) is Number else None
    for passage in ties.source.passages:
        if passage.bracket == stands.reading.passage.bracket:
            continue
        if grouping.others_stand_in(key, plain(passage.text)):
            return True
        if total is None:
            continue
        counted = (token for token in read_passage(passage, ties.scope.lexicon).tokens if token.value > total)
        if any(token.unit in ties.scope.lexicon.units for token in counted):
            return True
    return False


def _beside_a_ratio(stands: Stands, grouping: Grouping, own: Own) -> _Part | None:
    """The part whose ratio it is, where another part has one too: "in women 3.9, in men 1.2"."""
    said = stands.reading.told(beside_in).get(stands.at) if stands.block.endswith("/contrast") else None
    if said is None:
        return None
    units = stands.reading.lexicon.unit_words
    keys = {content_of(word, units): name.key for name in grouping.names for word in name.wordings}
    named, *others = ({key for own, key in keys.items() if own <= content} for content in (said.content, *said.others))
    words = stands.printed(said.words)
    if len(named) != 1 or not any(each - named for each in others) or own.says(words, *named):
        return None
    return None if is_pinned_away(stands, said.words) else _Part(words, named.pop(), grouping.factor)


def _other_parts(stands: Stands, own: Own, ties: Ties) -> Iterator[_Part]:
    """Parts by age, and those that the passage restricts a figure to in so many words."""
    reading, at = stands.reading, stands.at
    aged = reading.told(_aged)[at]
    if aged is not None and aged.key != ALL and _is_told(aged, stands) and not own.says(aged.key):
        yield _Part(stands.printed(aged.words[0]), "", "")
    yield from _restricted_to(stands, own, ties)
    fewer = reading.told(_of_fewer_studies).get(at)
    if fewer is not None and not own.says(stands.printed(fewer)) and not is_pinned_away(stands, fewer):
        yield _Part(stands.printed(fewer), "", "")
    yield from _beside_a_whole(stands, own, ties)
    among = reading.told(_counted_among).get(at)
    claim = ties.scope.claim
    if among is not None and claim is not None and claim.factor is None and not claim.levels:
        words = stands.printed((among.start, among.end))
        if not own.says(among.first, *(word for word in words.split() if len(word) > SHORT)):
            yield _Part(words, "", "")


def _restricted_to(stands: Stands, own: Own, ties: Ties) -> Iterator[_Part]:
    reading = stands.reading
    for part in reading.told(_restricted):
        is_its = part.holds(stands.token.start) and not own.says(part.first)
        is_its = is_its and not _names_own_level(stands, (part.start, part.end), ties)
        if is_its and has_more(reading.passage.text, reading.tokens, stands.at, part):
            yield _Part(stands.printed((part.start, part.end)), "", "")


def _names_own_level(stands: Stands, words: Span, ties: Ties) -> bool:
    """Whether words for a part hold the level under which the number is typed: "patients without diabetes"."""
    return bool(stands.row.level) and any(
        mention.key == stands.row.level and words[0] <= mention.start < words[1]
        for mention in stands.reading.mentions(ties.scope.names)
    )


def _beside_a_whole(stands: Stands, own: Own, ties: Ties) -> Iterator[_Part]:
    """Counts of some, where the passage has those of all beside."""
    claim = ties.scope.claim
    part = stands.reading.told(_in_parts).get(stands.at)
    if part is None or claim is None or claim.factor is not None or claim.levels or is_pinned_away(stands, part.words):
        return
    words = stands.printed(part.words)
    if _leaves_out_unseen(stands.reading.passage.text, part.words[0]):
        return
    is_its = type(claim.total) is Number and claim.total.value in part.totals
    if is_its and not own.says(words, *part.content):
        yield _Part(words, "", "")


_leaves_out_unseen = late(
    r"(?:excluding|leaving out|without counting)\b[^.;,\d]{0,40}\b"
    r"(?:lost|drop-?outs?|missing|withdrawn|unseen|not seen)\b",
    re.IGNORECASE,
).match
""" "Excluding eyes lost to follow-up": all that were seen."""


def _restricted(reading: Reading) -> list[Restricted]:
    return restricted(reading.passage.text, reading.lexicon)


def _counted_among(reading: Reading) -> dict[int, Restricted]:
    return counted_among(reading.passage.text, reading.tokens, reading.lexicon)


def _of_fewer_studies(reading: Reading) -> dict[int, Span]:
    return of_fewer_studies(reading.passage.text, reading.tokens, reading.table, reading.lexicon.beside_numbers)


def _in_parts(reading: Reading) -> dict[int, PartOfWhole]:
    return parts_of_wholes(reading.passage.text, reading.tokens, reading.table, reading.lexicon)


def _aged(reading: Reading) -> Owners:
    return of_ages(reading.passage.text, reading.tokens, reading.table, reading.lexicon.beside_numbers)


def _is_told(owner: Owner, stands: Stands) -> bool:
    """Whether the passage says for sure whose a number is: words in brackets say it of what stands in them alone."""
    if not owner.key or not owner.is_sure or not owner.words or is_pinned_away(stands, *owner.words):
        return False
    text = stands.reading.passage.text
    return bracket_around(text, owner.words[0][0]) in (-1, bracket_around(text, stands.token.start))


def _is_apart(owners: Owners, owner: Owner, stands: Stands, grouping: Grouping, ties: Ties) -> bool:
    """Whether the report has a whole, or a figure of another part, beside the words for a part."""
    reading = stands.reading
    text = reading.passage.text
    start, end = owner.words[0]
    is_said = is_said_in(text, start) or is_head(text, start, end) or is_said_first(text, start)
    is_told = is_said or reading.cells()[stands.at] is not None or owner.by == "position" or is_said_of(text, start)
    if _has_other(owners, owner, reading.tokens):
        return is_told or (grouping.may_begin and begins(text, start))
    sections = reading.table.sections(place) if (place := reading.cells()[stands.at]) is not None else ()
    is_said = is_said or any(low <= start < high for low, high in sections)
    return (is_said and has_whole(text)) or (is_told and _has_other_elsewhere(owner, stands, grouping, ties))


def _is_alone(owner: Owner, stands: Stands, grouping: Grouping, ties: Ties) -> bool:
    """Whether a claim without a factor has the figure of those that its clause names alone: "In women, 48 of 63"."""
    claim = ties.scope.claim
    if not (grouping.factor or grouping.is_of_people) or claim is None or claim.factor is not None or claim.levels:
        return False
    text = stands.reading.passage.text
    start, end = owner.words[0]
    if any(mention.key != owner.key for mention in stands.reading.mentions(grouping.names)):
        return False
    title = ties.source.fields.get("title")
    if title is not None and grouping.stands_in(owner.key, plain(title.text)):
        return False
    if grouping.is_presence(owner.key, text[start:end]) and not is_said_with(text, start):
        return False
    is_treatment = grouping.factor and grouping.may_begin
    is_told = owner.by == "words" and is_lone(text, start, end, may_head=not is_treatment)
    return is_told and not _is_of_all(grouping, owner.key, ties, text)


def _has_other(owners: Owners, owner: Owner, tokens: Sequence[Token]) -> bool:
    """Whether another part has a figure of its own in a passage."""
    return any(
        other is not None and other.key not in ("", owner.key) and other.is_sure and token.kind in ("count", "percent")
        for token, other in zip(tokens, owners, strict=True)
    )


def _has_other_elsewhere(owner: Owner, stands: Stands, grouping: Grouping, ties: Ties) -> bool:
    """The same of the other passages of the report."""
    for passage in ties.source.passages:
        if passage.bracket != stands.reading.passage.bracket and grouping.others_stand_in(
            owner.key, plain(passage.text)
        ):
            reading = read_passage(passage, ties.scope.lexicon)
            if _has_other(reading.owners(grouping.names), owner, reading.tokens):
                return True
    return False


def _is_of_all(grouping: Grouping, key: str, ties: Ties, text: str) -> bool:
    """Whether the report speaks elsewhere of the same people, and nowhere of the others: then they are all."""
    passages = [plain(passage.text) for passage in ties.source.passages]
    if any(grouping.others_stand_in(key, passage) for passage in passages):
        return False
    return any(grouping.stands_in(key, passage) for passage in passages if passage != plain(text))

"""Readers of single values: each takes what stands in a field and gives a typed value, or says why it cannot."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from ..problems import Position, with_article
from . import parsing
from .kinds import Chosen, Either, Many, Reader, Text, noted, taking
from .limits import LIST, NAME, TEXT
from .refusals import (
    items_meant,
    or_block,
    quoted_if_cut,
    refuse,
    refuse_cut_items,
    shortened,
    unreported,
)
from .slugs import slug
from .values import Date, Length, Missing, Number, Percentage, PValue, Range, Words
from .yaml_text import BROKEN, MappingNode, ScalarNode, SequenceNode, Sheet

MISSING = parsing.MISSING

# Half a million values and places are made in a large compendium, which takes 3 % of its check less in this way:
# tuple.__new__ skips the keyword handling of a NamedTuple's constructor.
_new = tuple.__new__


def position_of(node: Any, sheet: Sheet) -> Position:
    """Where a value begins."""
    mark = node.start_mark
    return _new(Position, (sheet.file, mark.line + 1, mark.column + 1))


@taking(Text())
def words(node: Any, sheet: Sheet) -> Any:
    """Any text."""
    if node.__class__ is ScalarNode:
        text = node.value
        if len(text) > TEXT:
            return too_long(node, sheet, TEXT)
        if text[-1:] > " ":
            mark = node.start_mark
            return _new(Words, (text, _new(Position, (sheet.file, mark.line + 1, mark.column + 1))))
        text = text.strip()
        if text:
            return Words(text, position_of(node, sheet))
    return refuse(node, sheet, "a text")


def too_long(node: Any, sheet: Sheet, limit: int) -> Any:
    """Says that a text or name has more characters than it may have."""
    message = f'"{shortened(node.value)}" has {len(node.value):,} characters: a text may have {limit:,}'
    return sheet.error(node, "beyond-limit", message, "shorten it, or make several of it")


@taking(Text(missing=True))
def words_or_missing(node: Any, sheet: Sheet) -> Any:
    """Any text, of which the three missing values are kept apart."""
    if node.__class__ is ScalarNode and node.value in MISSING:
        return Missing(node.value, position_of(node, sheet))
    return words(node, sheet)


@taking(Text("the words in the square brackets of a passage", r"\s*[^\s\[][\s\S]*", (None, None)))
def locator(node: Any, sheet: Sheet) -> Any:
    """The text between the brackets of a passage, blanks collapsed."""
    if node.__class__ is SequenceNode and node.flow_style:
        parts = [each.value for each in node.value if each.__class__ is ScalarNode]
        hint = f"where: {quoted_if_cut(', '.join(parts))}"
        return sheet.error(
            node,
            "not-a-text",
            f"[{', '.join(parts)}]: write the words in the square brackets, without the brackets",
            hint,
        )
    found = words(node, sheet)
    if found is BROKEN:
        return BROKEN
    text = found.text
    if text[0] == "[":
        tells = f'"{text}": write the words in the square brackets, without the brackets'
        return sheet.error(node, "not-a-text", tells, f"where: {quoted_if_cut(text.strip('[] '))}")
    if text[0] in _CURLY:
        tells = f'"{text}": the quotes of a word processor are letters for YAML, so they belong to the text'
        return sheet.error(node, "not-a-text", tells, f'where: "{text.strip(_CURLY)}"')
    if "  " in text or "\n" in text or "\t" in text:
        return Words(" ".join(text.split()), found.position)
    return found


_CURLY = "“”„‟«»"


def one_of(*values: str, missing: bool = False, block: tuple[str, ...] = ()) -> Reader:
    """A word of a closed list.

    missing: or one of the three missing values. block: fields of the block that may stand instead, which another
    reader takes.
    """
    known = frozenset(values)

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is ScalarNode:
            text = node.value
            if text in known:
                mark = node.start_mark
                return _new(Words, (text, _new(Position, (sheet.file, mark.line + 1, mark.column + 1))))
            if missing and text in MISSING:
                return Missing(text, position_of(node, sheet))
            if text.strip():
                choices = [*values, *(sorted(MISSING - known) if missing else ())]
                hint = "\n".join(filter(None, (_word_meant(text, choices, bool(block)), or_block(block))))
                return sheet.error(node, "not-in-list", f'"{shortened(text)}" is not one of: {", ".join(values)}', hint)
        return refuse(node, sheet, f"one of: {', '.join(values)}")

    return noted(read, Chosen(values, missing))


def _word_meant(text: str, choices: list[str], has_block: bool) -> str:
    """The word of a list that a text is near, or what to do where none is and no block may stand instead."""
    from .likely_values import word_meant  # only a message needs it

    return word_meant(text, choices) or ("" if has_block else "type one of them, letter for letter")


missing_value = one_of(*sorted(MISSING))
"""One of the three missing values, and nothing else."""


@taking(Chosen(("yes", "no")))
def yes_or_no(node: Any, sheet: Sheet) -> Any:
    """True for yes, False for no."""
    found = _YES_OR_NO(node, sheet)
    return BROKEN if found is BROKEN else found.text == "yes"


_YES_OR_NO = one_of("yes", "no")


def _value(kind: Text, rule: str, make: Any, parse: Callable[[str], Any]) -> Reader:
    """A reader of a value that is one text, parsed into the further parts of its NamedTuple."""
    what, missing = kind.what, kind.missing

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is ScalarNode:
            text = node.value
            found = parse(text)
            if found is not None:
                mark = node.start_mark
                return _new(make, (text, _new(Position, (sheet.file, mark.line + 1, mark.column + 1)), *found))
            if text in MISSING and missing:
                return Missing(text, position_of(node, sheet))
            if text.strip():
                if (beyond := beyond_of(text, make)) is not None:
                    return sheet.error(node, "beyond-limit", *beyond)
                return sheet.error(node, rule, f'"{shortened(text)}" is not {what}', _hint(text, make, parse, missing))
        return refuse(node, sheet, what, unreported(node) if missing else "")

    return noted(read, kind)


def beyond_of(text: str, make: Any) -> tuple[str, str] | None:
    """Message and hint for a text that is no such value since it passes a limit; None for any other."""
    from .beyond import passed_by  # only a message needs it

    told = passed_by(text, make)
    return None if told is None else (f'"{shortened(text)}" {told[0]}', told[1])


def _hint(text: str, make: Any, parse: Callable[[str], Any], missing: bool) -> str:
    """What may have been meant by a text that is no such value."""
    from .likely_values import value_meant  # only a message needs it

    return value_meant(text, make, parse, missing=missing)


def _count(text: str) -> Any:
    found = parsing.number(text)
    return found if found is not None and not found[1] and found[0] >= 0 else None


def _share(text: str) -> Any:
    found = parsing.percentage(text)
    return found if found is not None and 0 <= found[0] <= 100 else None


def _deviation(text: str) -> Any:
    found = parsing.number(text)
    return found if found is not None and found[0] >= 0 else None


def _p(text: str) -> Any:
    found = parsing.p_value(text)
    return found if found is not None and 0 <= found[1] <= 1 else None


def _date(text: str) -> Any:
    found = parsing.date(text)
    return None if found is None else (found,)


_COUNT = Text("a whole number such as 39 or 42,300", parsing.COUNT, (0, None), True)
_NUMBER = Text("a number such as 39, 2.9 or .02", parsing.NUMBER, (None, None), missing=True)
_DEVIATION = Text("a standard deviation such as 1.1, not below zero", parsing.NUMBER, (0, None), missing=True)
_SHARE = Text("a percentage from 0% to 100% such as 83% or 5.40%", parsing.SHARE)
_P = Text('a P value such as .02, <.05 or ">.9"', parsing.P_VALUE, (0, 1), missing=True)
_LENGTH = Text("a length of time such as 12 months, 90 days or 3 years 5 months", parsing.LENGTH)
_RANGE = Text("a range such as up to 3 mm, over 3 mm, 1 mm to 3 mm or under 10 minutes", parsing.RANGE)

count = _value(_COUNT._replace(missing=True), "not-a-count", Number, _count)
count_only = _value(_COUNT, "not-a-count", Number, _count)
number = _value(_NUMBER, "not-a-number", Number, parsing.number)
deviation = _value(_DEVIATION, "not-a-number", Number, _deviation)
percentage = _value(_SHARE._replace(missing=True), "not-a-percentage", Percentage, _share)
share_only = _value(
    _SHARE._replace(what="a percentage from 0% to 100% such as 83%"), "not-a-percentage", Percentage, _share
)
p_value = _value(_P, "not-a-p", PValue, _p)
length = _value(_LENGTH._replace(missing=True), "not-a-length", Length, parsing.length)
length_only = _value(_LENGTH, "not-a-length", Length, parsing.length)
measured_range = _value(_RANGE, "not-a-range", Range, parsing.measured_range)
date = _value(Text("a date that exists, such as 2026-02-03", parsing.DATE), "not-a-date", Date, _date)


@taking(Text("a level of confidence, 95% as a rule", r"(?!0*(?:\.0*)?%)(?!0*100)" + parsing.SHARE, missing=True))
def confidence(node: Any, sheet: Sheet) -> Any:
    """The level of an interval: over 0% and under 100%."""
    found = percentage(node, sheet)
    if found.__class__ is Percentage and not 0 < found.value < 100:
        return sheet.error(
            node,
            "not-a-percentage",
            f'"{found.text}" is not a confidence level: 95% is usual',
            "type the level that the paper prints, or delete the line",
        )
    return found


@taking(Text("a number or a percentage", parsing.NUMBER + " *%?", (None, None), missing=True))
def measure(node: Any, sheet: Sheet) -> Any:
    """The value of a contrast: a number, or a percentage that may be below zero."""
    if node.__class__ is ScalarNode and node.value.endswith("%"):
        found = parsing.percentage(node.value)
        if found is not None:
            return Percentage(node.value, position_of(node, sheet), *found)
    return number(node, sheet)


def name_of(what: str) -> Reader:
    """The id of something that another file defines: whether there is one is asked where all names are known, which
    also knows the titles that people type instead."""

    def read(node: Any, sheet: Sheet) -> Any:
        return words(node, sheet)

    return noted(read, Text(what, parsing.ID, (0, None), True))


def identifier(reserved: Iterable[str] = (), what: str = "id", block: tuple[str, ...] = ()) -> Reader:
    """Lower-case letters, digits and hyphens, and none of the reserved names.

    block: fields of the block that may stand instead, which another reader takes.
    """
    taken = frozenset(reserved)

    def read(node: Any, sheet: Sheet) -> Any:
        found = words(node, sheet)
        if found is BROKEN:
            return BROKEN
        return found if check_id(found.text, taken, what, node, sheet, or_block(block)) else BROKEN

    return noted(read, Text(what, parsing.ID, (0, None), True, tuple(sorted(taken))))


def id_typed(reserved: Iterable[str] = ()) -> Reader:
    """An id that whoever reads the list of its blocks looks at, so that a broken one is known by its name."""

    def read(node: Any, sheet: Sheet) -> Any:
        return words(node, sheet)

    return noted(read, Text("id", parsing.ID, (0, None), True, tuple(sorted(reserved))))


def check_id(text: str, reserved: frozenset[str], what: str, node: Any, sheet: Sheet, otherwise: str = "") -> bool:
    """False once it is said that this cannot be an id."""
    if len(text) > NAME:
        message = f'"{shortened(text)}" has {len(text):,} characters: {with_article(what)} may have {NAME}'
        sheet.error(node, "beyond-limit", message, otherwise or "shorten it")
        return False
    if not parsing.is_id(text):
        sheet.error(
            node,
            "not-an-id",
            f'"{shortened(text)}" cannot be {with_article(what)}: use lower-case letters, digits and hyphens only',
            otherwise or _id_meant(text),
        )
        return False
    if text in reserved:
        sheet.error(
            node, "reserved-name", f'"{text}" is reserved: choose another {what}', "put a word more before or after it"
        )
        return False
    return True


def _id_meant(text: str) -> str:
    """The same words as an id."""
    short = slug(text[:60])
    return f"write it {short}" if short else "call it by letters and digits"


def path_of(what: str, steps: tuple[int, ...]) -> Reader:
    """A name with slashes, `key/claim`, of as many steps."""

    def read(node: Any, sheet: Sheet) -> Any:
        found = words(node, sheet)
        if found is BROKEN:
            return BROKEN
        parts = found.text.split("/")
        if len(parts) not in steps or not all(parts) or any(part.isspace() for part in parts):
            return sheet.error(
                node,
                "not-a-path",
                f'"{shortened(found.text)}" should be written {what}',
                "key: that of the report; claim: its `id` there",
            )
        return found

    return noted(read, Text(what, rf"[^/]*[^/\s][^/]*(?:/[^/]*[^/\s][^/]*){{{min(steps) - 1},{max(steps) - 1}}}"))


def list_of(read_item: Reader, what: str, *, single: bool = False, breaks: bool = False) -> Reader:
    """A list; single: one item may stand alone; breaks: an unreadable item makes the whole list unreadable."""

    def read(node: Any, sheet: Sheet) -> Any:
        if node.__class__ is not SequenceNode:
            if single and (node.__class__ is MappingNode or node.value):
                item = read_item(node, sheet)
                return BROKEN if item is BROKEN else (item,)
            return refuse(node, sheet, f"a list of {what}", items_meant(node, what))
        if len(node.value) > LIST:
            message = f"{len(node.value):,} {what} stand in this list: it may hold {LIST:,}"
            return sheet.error(node, "beyond-limit", message, "leave out those that are not needed")
        items = []
        is_broken = False
        for entry in node.value:
            item = read_item(entry, sheet)
            if item is BROKEN:
                is_broken = True
            else:
                items.append(item)
        if node.flow_style:
            is_broken |= refuse_cut_items(node, sheet)
        return BROKEN if is_broken and breaks else tuple(items)

    return noted(read, Many(read_item, single, most=LIST))


def own_words(node: Any, sheet: Sheet) -> Any:
    """Words of the passage itself: one quoted text, or a list of them that is not empty."""
    if node.__class__ is SequenceNode and not node.value:
        return sheet.error(
            node,
            "empty-field",
            "the list is empty: quote words of the passage, or leave the field out",
            "delete the line",
        )
    return _own_words(node, sheet)


_own_words = list_of(words, "quoted words", single=True, breaks=True)
noted(own_words, Many(words, single=True, least=1, most=LIST))


def either(read_text: Reader, read_block: Reader) -> Reader:
    """A text in one form or a block in another."""

    def read(node: Any, sheet: Sheet) -> Any:
        return read_block(node, sheet) if node.__class__ is MappingNode else read_text(node, sheet)

    return noted(read, Either((read_text, read_block)))

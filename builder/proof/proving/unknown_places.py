"""A `where` that names no passage of its entry: what may have been meant, and how a passage is written."""

from __future__ import annotations

from collections.abc import Iterator

from ...compiled_patterns import compiled
from ...problems import Position, Problem, error
from ...reading.passages import doubtful_brackets
from ...reading.report_model import Passage, Source
from ...reading.values import Words


def unknown_where(where: Words, source: Source) -> Problem:
    """The entry has no such passage."""
    brackets = [passage.bracket for passage in source.passages]
    message = f'{source.key} has no passage "{where.text}" ({source.position.file}:{source.position.line})'
    from difflib import get_close_matches  # only a message needs it

    # Of two pages neither is near the other.
    is_page_alone = where.text.lstrip("pages.P ").isdecimal()
    close = [] if is_page_alone else get_close_matches(where.text, brackets, n=1, cutoff=0.7)
    if close:
        message += f', did you mean "{close[0]}"?'
    for typed, how in _other_brackets(where.text):
        place = _place_in_annotation(typed, source)
        if place is not None:
            message += f"; {how} at {place.file}:{place.line}:{place.column}"
            return error(where.position, "where-unknown", message, f"a passage begins with square ones: [{where.text}]")
    if close:
        return error(where.position, "where-unknown", message, f"where: {quoted(close[0])}")
    hint = (
        f"its passages: {'; '.join(brackets)}" if brackets else "the entry has no passages: type them into `annotation`"
    )
    return error(where.position, "where-unknown", message, hint)


def _other_brackets(where: str) -> Iterator[tuple[str, str]]:
    """How a locator may have been typed that is none, and how that is said."""
    yield f"({where})", "it stands in round brackets"
    yield f"{{{where}}}", "it stands in braces"
    yield f"[{where} ", "its bracket is not closed"
    for word in ("p. ", "pp. ", "page "):
        if where.startswith(word):
            yield f"[{where.removeprefix(word)}]", f"there stands [{where.removeprefix(word)}] without a word for it"


def is_doubtful(where: Words, source: Source) -> bool:
    """Whether a bracket with the same number is asked about, which may be the passage that is meant."""
    numbers = set(_find_numbers(where.text))
    fields = (source.fields.get("annotation"), source.fields.get("annote"))
    doubtful = [bracket for field in fields if field is not None for _, bracket in doubtful_brackets(field.text)]
    return bool(numbers) and any(numbers == set(_find_numbers(bracket)) for bracket in doubtful)


_find_numbers = compiled(r"[0-9]+").findall


def _place_in_annotation(typed: str, source: Source) -> Position | None:
    for field in (source.fields.get("annotation"), source.fields.get("annote")):
        at = field.text.find(typed) if field is not None else -1
        if field is not None and at >= 0:
            whole = Passage(source.key, "", "", field.text, field.position)
            return whole.place(at)
    return None


def quoted(text: str) -> str:
    """A locator as YAML takes it between braces too."""
    return f'"{text}"' if "," in text or ":" in text else text

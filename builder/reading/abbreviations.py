"""The value of a BibTeX field made of pieces: texts in braces or quotes, numbers, and abbreviations of the file."""

from __future__ import annotations

import re

from ..compiled_patterns import compiled
from .limits import ABBREVIATION, ABBREVIATIONS

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
_find_delimiters = compiled(r'\\.|[{}"]', re.DOTALL).finditer
_find_bare = compiled(r"[^\s{}\"#,%]+").match
_find_bare_text = compiled(r"[^\s{}\"#,%=]+[ \t]+[^{}\"#,%=]*").match

LOOKED_AT = 400
"""Characters of a text that a message may quote from."""
Fault = tuple[int, str, str, str]
"""Offset, rule, message and hint of what is wrong in a value."""


class Abbreviations:
    """The @string definitions of one file, months beforehand; what they add to the file has a limit."""

    def __init__(self) -> None:
        self._texts = {name[:3].lower(): name for name in MONTHS}
        self._long: set[str] = set()
        self._room = ABBREVIATIONS

    def define(self, name: str, value: str) -> None:
        """Takes one definition in the order of the file."""
        lowered = name.lower()
        self._texts.setdefault(lowered, "")
        text, _ = self.resolved(value, is_definition=True)
        self._long.discard(lowered)
        if len(text) > ABBREVIATION:
            self._long.add(lowered)
            text = "…"
        self._texts[lowered] = text

    def is_too_long(self, name: str) -> bool:
        """Whether an abbreviation is longer than it may be; then it stands for nothing."""
        return name.lower() in self._long

    def _text(self, word: str, so_far: int, is_definition: bool) -> str | None:
        """What a word stands for; None where that is too much."""
        text = self._texts[word]
        if is_definition:
            # One character too many is enough to know that the whole is too long.
            return text[: max(0, ABBREVIATION + 1 - so_far)]
        self._room -= len(text)
        return text if self._room >= 0 else None

    def resolved(self, value: str, *, is_definition: bool = False) -> tuple[str, list[Fault]]:
        """The text of a value made of pieces, and (offset, rule, message, hint) of each fault in it."""
        parts: list[str] = []
        faults: list[Fault] = []
        at = size = 0
        expects_piece = True
        is_alone = "#" not in value
        while at < len(value):
            character = value[at]
            if character.isspace():
                at += 1
            elif character == "#":
                expects_piece = True
                at += 1
            elif not expects_piece:
                rest = short(value[at : at + LOOKED_AT])
                hint = f"end what stands before it with a comma: {short(value[:at][:LOOKED_AT])},"
                faults.append((at, "forgotten-comma", f'a comma is missing before "{rest}"', hint))
                break
            elif character in '{"':
                end = end_of_piece(value, at)
                parts.append(value[at + 1 : end - 1].strip() if is_alone else value[at + 1 : end - 1])
                at, expects_piece = end, False
            else:
                found = _find_bare(value, at)
                word = found[0] if found else character
                if word.lower() in self._texts:
                    text = self._text(word.lower(), size, is_definition)
                    if text is None:
                        faults.append((at, "beyond-limit", *_TOO_MUCH))
                        break
                    parts.append(text)
                    size += len(text)
                elif word.isdecimal():
                    parts.append(word)
                else:
                    word, message, hint = _bare_text(value, at, word)
                    parts.append(word)
                    faults.append((at, "undefined-string", message, hint))
                at, expects_piece = at + len(word), False
        return "".join(parts), faults


_TOO_MUCH = (
    f"the abbreviations used up to here add more than {ABBREVIATIONS:,} characters to this file",
    "type the texts themselves, or make several files",
)


def end_of_piece(value: str, at: int, stop: int | None = None) -> int:
    """Offset behind the braced or quoted piece that opens here; that of the end where it never closes.

    stop: where the value ends; None: with the text.
    """
    last = len(value) if stop is None else stop
    is_quoted = value[at : at + 1] == '"'
    depth = 0
    for found in _find_delimiters(value, at, last):
        sign = found[0]
        if sign == "{":
            depth += 1
        elif sign == "}":
            depth -= 1
            if depth <= 0 and not is_quoted:
                return found.end()
        elif sign == '"' and is_quoted and depth <= 0 and found.start() > at:
            return found.end()
    return last


def _bare_text(value: str, at: int, word: str) -> tuple[str, str, str]:
    """What stands in a value without braces and is no abbreviation: all of its words; message and hint."""
    whole = _find_bare_text(value, at)
    if whole is None or whole.end() < len(value):
        message = f'"{short(word)}" is neither a number nor an abbreviation of this file'
        return word, message, f"put the text in braces: {{{short(word)}}}"
    text = whole[0].rstrip()
    inner = " ".join(text.strip("“”„‟«»'")[:LOOKED_AT].split())
    return text, f'"{short(text)}" is a text and stands without braces', f"put it in braces: {{{inner}}}"


def short(text: str) -> str:
    """The beginning of a text in a message, on one line."""
    text = " ".join(text[:LOOKED_AT].split())
    return text if len(text) <= 40 else text[:39].rstrip() + "…"

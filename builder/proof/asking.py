"""How a question about printed figures is put, and the block that answers it."""

from __future__ import annotations

from ..problems import Position, Problem

# A flow mapping of YAML takes these unquoted; anything else is put between double quotes.
_PLAIN = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 %./+-()=")
_CLOSING = "these printed figures do not agree, ask"


def ask(
    position: Position, rule: str, printed: str, tells: str, place: str, with_key: str = "", closing: str = _CLOSING
) -> Problem:
    """A question about printed figures: never that something is wrong, only that it does not fit.

    printed: the printed text it is about; the message quotes it first. tells: what was worked out, in words.
    place: "key", "key/claim", "key/studies/id" or "question:id". with_key: the other report, where two are compared.
    """
    printed = collapsed(printed)
    message = f'"{printed}": {tells}; {closing}'
    return Problem(position, rule, "ask", message, _hint(rule, printed, place, with_key), printed, place, with_key)


def collapsed(text: str) -> str:
    """The text with every run of blanks as one, none at the ends."""
    return " ".join(text.split())


def _hint(rule: str, printed: str, place: str, with_key: str) -> str:
    key, _, inner = place.partition("/")
    folder = "claims"
    if key.startswith("question:"):
        folder, key = "questions", key.removeprefix("question:")
    if not inner:
        where = "at the top"
    elif inner.startswith("studies/"):
        where = f"in study {inner.removeprefix('studies/')}"
    else:
        where = f"in claim {inner}"
    again = "look at the paper again; " if folder == "claims" else ""
    other = f", with: {in_yaml(with_key)}" if with_key else ""
    return (
        f"{again}once it is explained, answer {where} of evidence/{folder}/{key}.yaml:\n"
        "acknowledged:\n"
        f'  - {{rule: {rule}, printed: {in_yaml(printed)}{other}, by: YOUR INITIALS, reason: "WHY IT IS SO"}}'
    )


def in_yaml(text: str) -> str:
    """The text as a value inside a flow mapping, quoted where YAML would read it as something else."""
    is_plain = bool(text) and set(text) <= _PLAIN and text[0].isalnum() and text[-1] != " "
    if is_plain:
        return text
    return in_quotes(text)


def in_quotes(text: str) -> str:
    """The text between double quotes, as YAML has it."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'

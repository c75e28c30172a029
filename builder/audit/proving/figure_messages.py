"""What to say where a number finds no proof, in the words of the form."""

from __future__ import annotations

from collections.abc import Callable
from difflib import get_close_matches

from ...numerals import Lexicon, Token
from ...problems import Position, Problem, error
from ...reading.report_model import Source
from ...reading.values import Words
from .field_roles import Mention, Quoted, Scope
from .matching import Reading, candidates, has_precision, is_like
from .sharing import Choice

FIGURE_RULES: dict[str, str] = {
    "figure-not-in-passage": (
        "A number of the claim does not stand in the passage that its `where` names. Every figure that a reader sees "
        "must be one tap from the words it was quoted from. Correct the number, correct the passage, or name the "
        "passage that has it."
    ),
    "figure-elsewhere": (
        "The number does not stand in the passage that `where` names, but in another one of the same entry. A reader "
        "who follows the figure would look at the wrong page. Give the field, or its block, a `where` of its own."
    ),
    "figure-other-role": (
        "The passage prints the number, but as something else: months in place of patients, a percentage of women in "
        "place of a success rate, `n = 20` in place of a count of successes. Name the field that the words beside the "
        "number speak of, or type into the passage the words that the report prints beside it."
    ),
    "figure-precision": (
        "The passage prints the number with other decimals. What was printed is quoted as it was printed, so that "
        "nobody reads more precision, or less, than the report had. Type the number as the passage has it."
    ),
    "figure-taken": (
        "One printed number would have to prove two fields. Within one claim, or one study's facts, each printed "
        "number proves one field, since otherwise a slip of the finger could hide behind another number. Only totals, "
        "times, bounds of a level, equal steps of a flow and a count printed once for each part (`90 per arm`) share "
        "one. Type the second number into the passage where the report prints it."
    ),
    "figure-pair": (
        "Two numbers that are printed together, `n of N` or the two ends of an interval, were taken from different "
        "pairs. Type both as they stand together in the passage."
    ),
    "figure-ambiguous": (
        "The passage prints the number more often than fields quote it, and neither a word beside it nor the level's "
        "wording says which is meant. Split the passage under two brackets and name the narrower one in `where`."
    ),
    "figure-unreadable": (
        "Copying from the paper destroyed a number in the passage: two numbers run together, limits in reverse "
        "order, a lost minus, a comma that may be a decimal sign. Nothing is guessed. Type the number into the "
        "passage as the report prints it."
    ),
    "where-unknown": (
        "`where` names a passage that the entry does not have. It must be the text between the square brackets in "
        "`annotation`, word for word."
    ),
}
"""For each rule of this proof what it found, why it matters and how to mend it."""


def _from(place: Reading) -> str:
    passage = place.passage
    return f"the passage typed from {passage.bracket} ({passage.position.file}:{passage.position.line})"


def _as_printed(token: Token, lexicon: Lexicon) -> str:
    """A number as a writer would say it: with its unit where that is not part of it."""
    text = token.shown
    if token.kind == "p":
        return f"P = {text}" if not token.comparator else f"P {text}"
    if token.unit in ("none", "%", "other") or token.unit in text:
        return text
    if token.unit in lexicon.units:
        return f"{text} {lexicon.name(token.unit, token.value)}"
    return f"{text} {token.unit}" if token.value == 1 or token.unit == "mm" else f"{text} {token.unit}s"


def _holder(choice: Choice, scope: Scope) -> str:
    if choice.holder is None:
        return f"another field of {scope.name}"
    file, line, _ = choice.holder.position
    return f"`{choice.holder.name}` at {file}:{line}"


def unknown_where(where: Words, source: Source) -> Problem:
    """The entry has no such passage."""
    brackets = [passage.bracket for passage in source.passages]
    message = f'{source.key} has no passage "{where.text}" ({source.position.file}:{source.position.line})'
    close = get_close_matches(where.text, brackets, n=1, cutoff=0.5)
    if close:
        message += f', did you mean "{close[0]}"?'
    hint = (
        f"its passages: {'; '.join(brackets)}" if brackets else "the entry has no passages: type them into `annotation`"
    )
    return error(where.position, "where-unknown", message, hint)


def proof_problem(
    row: Quoted, place: Reading, choice: Choice, scope: Scope, source: Source, reading: Callable[[str], Reading | None]
) -> Problem:
    """Why this number found no proof, and what would mend it."""
    typed = f'"{row.typed}"'
    tokens = place.tokens
    at = row.position
    if choice.failure == "ambiguous":
        return error(
            at, "figure-ambiguous",
            f"{typed} stands more than once in {_from(place)}, and nothing there says which is `{row.name}`",
            "split the passage under two brackets and name the narrower one in `where`",
        )  # fmt: skip
    if choice.failure == "taken":
        return error(
            at, "figure-taken",
            f"{typed} stands once in {_from(place)} and proves {_holder(choice, scope)} already",
            f"type into the passage the number that the report prints for `{row.name}`",
        )  # fmt: skip
    if choice.failure == "pair":
        mate = _as_printed(tokens[choice.among[0]], place.lexicon)
        return error(
            at,
            "figure-pair",
            f"{typed} is not printed together with its partner in {_from(place)}, which has {mate} there",
        )
    same_value = [tokens[index] for index in place.by_value.get(row.value, ()) if tokens[index].kind != "unreadable"]
    for token in same_value:
        if is_like(row, token, scope) and not has_precision(row, token):
            return error(
                at,
                "figure-precision",
                f"{typed} is printed as {_as_printed(token, place.lexicon)} in {_from(place)}",
                "type it as it is printed",
            )
    for bracket in (passage.bracket for passage in source.passages):
        other = reading(bracket)
        if other is not None and other is not place and candidates(row, other, scope):
            return error(
                at,
                "figure-elsewhere",
                f"{typed} is not in {_from(place)}, but in {bracket}",
                f"where: {_quoted(bracket)}",
            )
    if same_value and row.role.kind != "bound":
        token = same_value[0]
        said = f' beside "{token.role}"' if token.role else ""
        return error(
            at,
            "figure-other-role",
            f"{_from(place)} has {_as_printed(token, place.lexicon)}{said}, which is no `{row.name}`",
        )
    broken = [token.text for token in tokens if token.kind == "unreadable"]
    if broken:
        return error(
            at, "figure-unreadable",
            f'{typed} is not in {_from(place)}, which has "{broken[0]}", and that cannot be read',
            "type the number into the passage as the report prints it",
        )  # fmt: skip
    nearest = _nearest(row, place, scope)
    return error(at, "figure-not-in-passage", f"{typed} is not in {_from(place)}, which has {nearest}")


def _quoted(text: str) -> str:
    return f'"{text}"' if "," in text or ":" in text else text


def _nearest(row: Quoted, place: Reading, scope: Scope) -> str:
    """The printed number that could have been meant: of the same kind, and closest in value."""
    alike = [token for token in place.tokens if is_like(row, token, scope)]
    if not alike:
        return "no such number" if place.tokens else "no number"
    return _as_printed(min(alike, key=lambda token: abs(token.value - row.value)), place.lexicon)


def mention_problem(mention: Mention, token: Token, place: Reading) -> Problem:
    """A number in words that does not stand in the passage."""
    file, line, column = mention.words.position
    return error(
        Position(file, line, column + token.start), "figure-not-in-passage",
        f'"{_as_printed(token, place.lexicon)}" in `{mention.name}` is not in {_from(place)}',
        "leave the number out, or type into the passage what the report prints",
    )  # fmt: skip

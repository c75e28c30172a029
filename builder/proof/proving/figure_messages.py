"""What to say where a number finds no proof, in the words of the form."""

from __future__ import annotations

from collections.abc import Callable

from ...numerals import Lexicon, Token
from ...problems import Position, Problem, error
from ...reading.field_meanings import block_of_figure, field_meaning
from ...reading.report_model import Source
from ..asking import ask
from .displayed import as_typed, strange_sign
from .field_roles import InPassing, Quoted, Scope
from .likeness import has_precision, is_like
from .locating import standing
from .matching import candidates
from .printed_passage import Reading
from .sharing import Choice
from .unknown_places import quoted

FIGURE_RULES: dict[str, str] = {
    "figure-not-in-passage": (
        "A number of the claim is not in the passage that its `where` names. Every figure that a reader sees must be "
        "one tap from the words it was quoted from. Correct the number, correct the passage, or name the passage that "
        "has it."
    ),
    "figure-elsewhere": (
        "The number is not in the passage that `where` names, but in another one of the same entry. A reader who "
        "follows the figure would look at the wrong page. Give the field, or its block, a `where` of its own."
    ),
    "figure-means-something-else": (
        "The passage has the number, but there it means something else: months instead of patients, a percentage of "
        "women instead of a success rate, `n = 20` instead of a number of successes. Move the number to the field "
        "that the words beside it speak of, or type into the passage the words that the report prints beside it. Words "
        "can be misread: where the number is what the claim says, answer so."
    ),
    "figure-precision": (
        "The passage prints the number with more or fewer decimals. A number is quoted as it was printed, so that "
        "nobody reads more precision, or less, than the report had. Type the number as the passage has it."
    ),
    "figure-taken": (
        "One printed number would have to prove two fields. Within one claim, or one study's facts, each printed "
        "number proves one field only: otherwise a typing slip could go unnoticed. The exceptions are "
        "totals, times, bounds of a level, equal steps of a flow, and a count printed once for each part (`90 per "
        "arm`). Type the second number into the passage where the report prints it; where the report means both by one "
        "number, answer so."
    ),
    "figure-pair": (
        "Two numbers that a report prints together, `n of N` or the two ends of an interval, were taken from "
        "different pairs. Type both as they are printed together in the passage; where the report parts them, answer "
        "so."
    ),
    "figure-ambiguous": (
        "The passage prints the number more often than fields quote it, and neither a word beside it nor the wording "
        "of the level says which one is meant. Quote in `in_words` the very words that hold the number, or split the "
        "passage into two, each with its own locator in square brackets, and name the narrower one in `where`."
    ),
    "figure-outside-in-words": (
        "The passage has the number, but not in the words that `in_words` quotes for it. Those words are shown beside "
        "the number, so they must hold it. Quote the stretch that has the number, or add it as a further item; a block "
        "inside may have `in_words` of its own."
    ),
    "figure-unreadable": (
        "A number in the passage was damaged when it was copied from the paper: two numbers run together, limits in "
        "reverse order, a minus sign lost, a comma that may be a decimal point; or something touches its digits that "
        "makes another number of them on the page: a fraction, a digit of another script, a character that no editor "
        "shows, TeX that vanishes (`1{}3`). Nothing is guessed. Type the number into the passage as the report prints "
        "it, in the digits 0 to 9."
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
    if token.stands_for:
        return f"{text} {token.stands_for}s"
    if token.kind == "p":
        return f"P = {text}" if not token.comparator else f"P {text}"
    if token.unit in ("none", "%", "other") or token.unit in text:
        return text
    if any(map(str.isalpha, text)) and any(map(str.isdigit, text)):  # "6 h", "2-year" hold their unit
        return text
    if token.unit in lexicon.units:
        return f"{text} {lexicon.name(token.unit, token.value)}"
    return f"{text} {token.unit}" if token.value == 1 or token.unit == "mm" else f"{text} {token.unit}s"


def _holder(choice: Choice, scope: Scope) -> str:
    if choice.holder is None:
        return f"another field of {scope.name}"
    file, line, _ = choice.holder.position
    return f"{_meaning(choice.holder)} at {file}:{line}"


def _meaning(row: Quoted) -> str:
    """What the number was typed for: "the number examined (`examined`)"."""
    return field_meaning(row.name, block_of_figure(row.id))


def proof_problem(
    row: Quoted, place: Reading, scope: Scope, source: Source, reading: Callable[[str], Reading | None]
) -> Problem:
    """Why this number found no proof, and what would mend it."""
    return (
        _outside_in_words(row, place)
        or _unreadable(row, place, same_value=True)
        or _other_precision(row, place, scope)
        or _elsewhere(row, place, scope, source, reading)
        or _another_kind(row, place)
        or _unreadable(row, place)
        or _not_there(row, place, scope)
    )


def doubt(
    row: Quoted, place: Reading, choice: Choice, scope: Scope, source: Source, reading: Callable[[str], Reading | None]
) -> Problem:
    """The passage has this number, and something there speaks against what it was typed for."""
    meaning = _meaning(row)
    mend = "`in_words` with the words of the passage that hold it, or two passages in place of one, say which is meant"
    if choice.failure == "ambiguous":
        rule, tells = (
            "figure-ambiguous",
            f"is printed more than once in {_from(place)}, and no words there say which is {meaning}",
        )
    elif choice.failure == "taken":
        rule = "figure-taken"
        tells = f"is printed only once in {_from(place)}, and there it already proves {_holder(choice, scope)}"
        mend = f"type into the passage what the report prints for {meaning}"
    elif choice.failure == "pair":
        rule, tells = "figure-pair", _of_another_pair(row, place, choice, scope)
        mend = "type both numbers as they are printed together"
    else:
        rule, token = "figure-means-something-else", place.tokens[choice.at]
        said = f' beside "{token.role}"' if token.role else ""
        found = f"{_from(place)} has {_as_printed(token, place.lexicon)}{said}"
        tells = f"is typed for {meaning}, but {found}, which means something else"
        other = _elsewhere(row, place, scope, source, reading)
        mend = "where it counts something else, move it to the field it belongs to"
        mend = other.hint if other is not None else mend
        swapped = _swapped(row, place, scope)
        if swapped is not None:
            tells = f"is typed for {meaning}, but {_from(place)} has {swapped[0]}: are `events` and `total` swapped?"
            mend = swapped[1]
    partner = exchanged_with(row, place, scope)
    if partner is not None:
        rule = "figure-means-something-else"
        tells = (
            f'is typed for {meaning} and "{partner.typed}" for {_meaning(partner)}, but {_from(place)} has them the '
            "other way round: are the two swapped?"
        )
        mend = f"{row.name}: {partner.typed}, {partner.name}: {row.typed}"
    problem = ask(row.position, rule, row.typed, tells, scope.name, closing="ask what it counts")
    return problem._replace(message=f'"{row.typed}" {tells}', hint=f"{mend}\n{problem.hint}")


def exchanged_with(row: Quoted, place: Reading, scope: Scope) -> Quoted | None:
    """The field of the same block whose number the passage has under this one's word, and this one's under its own:
    "152 due, 140 examined" where the claim has 140 due and 152 examined."""
    own, block = row.role.own, row.id.rpartition("/")[0]
    if not own:
        return None
    for other in scope.quoted:
        its = other.role.own
        is_beside = its not in ("", own) and other.id.rpartition("/")[0] == block and other.where is row.where
        if is_beside and _stands_as(row, its, place) and _stands_as(other, own, place):
            return other
    return None


def _stands_as(row: Quoted, role: str, place: Reading) -> bool:
    return any(role in place.tokens[at].roles for at in place.by_value.get(row.value, ()))


def _swapped(row: Quoted, place: Reading, scope: Scope) -> tuple[str, str] | None:
    """ "39 of 47" where the claim has 47 of 39, and how to type it; None where the two are as they are printed."""
    block = row.id.rpartition("/")[0]
    of_block = {other.name: other for other in scope.quoted if other.id.rpartition("/")[0] == block}
    events, total = of_block.get("events"), of_block.get("total")
    if events is None or total is None or row not in (events, total) or events.value <= total.value:
        return None
    for index in place.by_value.get(total.value, ()):
        token = place.tokens[index]
        if token.part == "events" and place.tokens[token.pair].value == events.value:
            return f"{total.typed} of {events.typed}", f"events: {total.typed}, total: {events.typed}"
    return None


def _of_another_pair(row: Quoted, place: Reading, choice: Choice, scope: Scope) -> str:
    """What the passage prints beside the number that was typed with this one."""
    rows = scope.quoted
    at = next((at for at, other in enumerate(rows) if other is row), 0)
    partner = rows[at - 1] if at else row
    printed = (place.tokens[index] for index in place.by_value.get(partner.value, ()))
    mates = [place.tokens[token.pair] for token in printed if token.pair >= 0 and token.part != row.name]
    token = place.tokens[choice.at]
    mate = mates[0] if mates else place.tokens[token.pair] if token.pair >= 0 else token
    return f'is typed with "{partner.typed}", beside which {_from(place)} prints {_as_printed(mate, place.lexicon)}'


def _outside_in_words(row: Quoted, place: Reading) -> Problem | None:
    if not row.within_words or not standing(row._replace(within_words=()), place):
        return None
    file, line, _ = row.within_words[0].position
    quoted = " ... ".join(words.text for words in row.within_words)
    return error(
        row.position,
        "figure-outside-in-words",
        f'"{row.typed}" is in {_from(place)}, but not in the words quoted for it: "{quoted}" (`in_words` at '
        f"{file}:{line})",
        "quote the words that have it, or give its block `in_words` of its own",
    )


def _of_same_value(row: Quoted, place: Reading) -> list[Token]:
    tokens = [place.tokens[index] for index in place.by_value.get(row.value, ())]
    return [token for token in tokens if token.kind != "unreadable"]


def _other_precision(row: Quoted, place: Reading, scope: Scope) -> Problem | None:
    for token in _of_same_value(row, place):
        if is_like(row, token, scope) and not has_precision(row, token):
            return error(
                row.position,
                "figure-precision",
                f'"{row.typed}" is printed as {_as_printed(token, place.lexicon)} in {_from(place)}',
                "type it as it is printed",
            )
    return None


def _elsewhere(
    row: Quoted, place: Reading, scope: Scope, source: Source, reading: Callable[[str], Reading | None]
) -> Problem | None:
    holding = [
        (bracket, other)
        for bracket in (passage.bracket for passage in source.passages)
        if (other := reading(bracket)) is not None and other is not place and candidates(row, other, scope)
    ]
    if not holding:
        return None
    # Several may have a total; the one that has most of what was typed for this place is meant.
    beside = [each for each in scope.quoted if each.where is row.where]
    bracket, _ = max(holding, key=lambda held: sum(bool(candidates(each, held[1], scope)) for each in beside))
    return error(
        row.position,
        "figure-elsewhere",
        f'"{row.typed}" is not in {_from(place)}, but in the one from {bracket}',
        _way_there(row, place, bracket, scope),
    )


def also_elsewhere(problem: Problem, row: Quoted) -> Problem:
    """The same problem, of one number more: "39", "47" are not in the passage, but in another."""
    head, _, tail = problem.message.partition(" not in the passage")
    named = head.removesuffix(" is").removesuffix(" are")
    return problem._replace(message=f'{named}, "{row.typed}" are not in the passage{tail}')


def _way_there(row: Quoted, place: Reading, bracket: str, scope: Scope) -> str:
    """Another `where`; where that would take from others of the block what proves them, one passage of both places."""
    block = row.id.rpartition("/")[0]
    others = (other for other in scope.quoted if other is not row and other.id.rpartition("/")[0] == block)
    if any(other.where is row.where and candidates(other, place, scope) for other in others):
        both = f"{place.passage.bracket}; {bracket}"
        return (
            f"what is typed with it stands in {place.passage.bracket}: type the words of both places into one passage, "
            f"[{both}], and name it: where: {quoted(both)}"
        )
    return f"where: {quoted(bracket)}"


def _another_kind(row: Quoted, place: Reading) -> Problem | None:
    same_value = _of_same_value(row, place)
    if not same_value or row.role.kind == "bound":
        return None
    token = same_value[0]
    said = f' beside "{token.role}"' if token.role else ""
    found = f"{_from(place)} has {_as_printed(token, place.lexicon)}{said}"
    if row.role.kind == token.kind == "length" and row.unit != token.unit:
        tail, hint = "", f"type it with the unit that is printed: {_as_printed(token, place.lexicon)}"
    elif row.role.kind == token.kind == "p":
        tail, hint = "", f'type it with the sign that is printed: {row.name}: "{token.comparator}{row.typed}"'
    else:
        tail = ", which means something else"
        hint = "move it to the field it belongs to, or type into the passage the words printed beside it"
    tells = f'"{row.typed}" is typed for {_meaning(row)}, but {found}{tail}'
    return error(row.position, "figure-means-something-else", tells, hint)


def _unreadable(row: Quoted, place: Reading, *, same_value: bool = False) -> Problem | None:
    """same_value: only where the digits in doubt are those of the field."""
    broken = [index for index, token in enumerate(place.tokens) if token.kind == "unreadable"]
    if same_value:
        broken = [index for index in broken if place.tokens[index].value == row.value]
    if not broken:
        return None
    index = broken[0]
    text, token = place.passage.text, place.tokens[index]
    found = as_typed(text, token)
    hint = "type the number into the passage as the report prints it"
    strange = strange_sign(text, token)
    if index in place.otherwise:
        seen = place.otherwise[index]
        reason = f'which its page shows as "{seen}"' if seen else "which its page does not show"
        hint += ", in plain digits, with nothing between or beside them"
        offset = token.start
    elif strange is not None:
        offset, name = strange
        reason = f"where {name}, touches the digits" if "," in name else f"where {name} touches the digits"
        hint += ", in the digits 0 to 9, with a blank before whatever is no part of it"
    else:
        return error(
            row.position, "figure-unreadable",
            f'"{row.typed}" is not in {_from(place)}, which has "{token.text}": no number can be read from that', hint,
        )  # fmt: skip
    file, line, column = place.passage.place(offset)
    return error(
        row.position, "figure-unreadable",
        f'"{row.typed}" is not in {_from(place)}, which has "{found}" at {file}:{line}:{column}, {reason}: '
        "no number can be read from that", hint,
    )  # fmt: skip


def _not_there(row: Quoted, place: Reading, scope: Scope) -> Problem:
    nearest = _nearest(row, place, scope)
    file, line, _ = place.passage.position
    tells = f'"{row.typed}" is not in {_from(place)}, which has {nearest}'
    hint = f"look at the paper: correct the number here, or the passage in {file.rpartition('/')[2]}, line {line}"
    return error(row.position, "figure-not-in-passage", tells, hint)


def _nearest(row: Quoted, place: Reading, scope: Scope) -> str:
    """The printed number that could have been meant: of the same kind, and closest in value."""
    alike = [token for token in place.tokens if is_like(row, token, scope)]
    if not alike:
        return "no such number" if place.tokens else "no number"
    return _as_printed(min(alike, key=lambda token: abs(token.value - row.value)), place.lexicon)


def problem_in_passing(said: InPassing, token: Token, place: Reading) -> Problem:
    """A number in words that does not stand in the passage."""
    file, line, column = said.words.position
    return error(
        Position(file, line, column + token.start), "figure-not-in-passage",
        f'"{_as_printed(token, place.lexicon)}" in {field_meaning(said.name)} is not in {_from(place)}',
        "leave the number out, or type into the passage what the report prints",
    )  # fmt: skip

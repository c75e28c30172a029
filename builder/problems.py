"""What is wrong is a value: where it stands, what was found, and how to mend it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from .compiled_patterns import compiled
from .records import NamedTuple

Severity = Literal["error", "ask"]


class Position(NamedTuple):
    """A place in a file, as an editor shows it."""

    file: str
    """Path from the folder that holds evidence/, with "/" on every system."""
    line: int
    """From 1."""
    column: int
    """From 1, in characters; a byte-order mark is not counted."""

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


class Problem(NamedTuple):
    """One thing to mend in our files ("error"), or one printed figure to ask about ("ask")."""

    position: Position
    rule: str
    """Public name of the rule; the contributor page has a paragraph for each."""
    severity: Severity
    message: str
    """What was found and what was expected, in the words of the form; one sentence without a full stop."""
    hint: str = ""
    """How to mend it, or the block that acknowledges it, ready to paste; may have several lines."""
    printed: str = ""
    """The printed text a question is about, blanks collapsed: an acknowledgement holds for this text alone."""
    place: str = ""
    """Where an acknowledgement may stand: "key", "key/claim", "key/studies/id" or "question:id"."""
    with_key: str = ""
    """The other report, where a question is about two."""
    acknowledged: str | None = None
    """The reason that answers the question, once somebody gave it."""

    @property
    def is_open(self) -> bool:
        """True while the check must fail because of it."""
        return self.severity == "error" or self.acknowledged is None


class Note(NamedTuple):
    """What is told and needs no mending: something may be left out, and the guide says there that it is."""

    position: Position
    message: str
    """What is left out and what the guide says instead; one sentence without a full stop."""


def error(position: Position, rule: str, message: str, hint: str) -> Problem:
    """A problem that the writer mends in our own files."""
    return Problem(position, rule, "error", message, hint)


_sounds_open = compiled(r"8|1[18]\b").match
""" "eight", "eleven", "eighteen"."""


def with_article(words: str) -> str:
    """The words of a message with "a" or "an" before them: "an odds ratio", "a unit", "an 8-year rate"."""
    first = words.casefold()
    sounds_like_you_or_one = first.startswith(("uni", "use", "usu", "eu", "one", "once"))
    is_vowel = first[:1] in "aeiou" and not sounds_like_you_or_one
    return f"an {words}" if is_vowel or _sounds_open(first) else f"a {words}"


def in_order(problems: Iterable[Problem]) -> list[Problem]:
    """All problems once, sorted by place, then by rule and message."""
    return sorted(set(problems), key=lambda problem: (problem.position, problem.rule, problem.message))


def as_text(problem: Problem) -> str:
    """The line a person reads: where, what, the rule's name last, and the hint below it."""
    return _as_text(problem, set())


def as_texts(problems: Iterable[Problem]) -> list[str]:
    """The same of each problem in turn; of several questions about one claim the advice that they share stands below
    the first alone, and the lines to paste one below the other."""
    said: dict[str, set[str]] = {}
    return [
        _as_text(problem, said.setdefault(problem.place, set()) if problem.place else set()) for problem in problems
    ]


def _as_text(problem: Problem, said: set[str]) -> str:
    """said: lines of advice that a reader has before, to which its own are added."""
    state = "" if problem.acknowledged is None else f" (acknowledged: {problem.acknowledged})"
    line = f"{problem.position}: {problem.message} [{problem.rule}]{state}"
    if problem.hint and problem.is_open:
        parts = [part for part in problem.hint.splitlines() if part not in said]
        said.update(parts)
        line += "".join(f"\n    {part}" for part in parts)
    return line


def as_json(problem: Problem) -> dict[str, object]:
    """The row that outside tools read."""
    return {
        "file": problem.position.file,
        "line": problem.position.line,
        "column": problem.position.column,
        "rule": problem.rule,
        "severity": problem.severity,
        "message": problem.message,
        "hint": problem.hint,
        "acknowledged": problem.acknowledged,
    }


def as_annotation(problem: Problem | Note, folder: str = "") -> str:
    """A workflow command that puts the problem on its line of a pull request.

    folder: path from the working folder to the root that the positions count from, "" where they are one.
    """

    def escaped(text: str, *, in_property: bool = False) -> str:
        for raw, code in (("%", "%25"), ("\r", "%0D"), ("\n", "%0A")):
            text = text.replace(raw, code)
        if in_property:
            text = text.replace(":", "%3A").replace(",", "%2C")
        return text

    kind, title, text = "notice", "left out", problem.message
    if isinstance(problem, Problem):
        title = problem.rule
        if problem.is_open:
            kind = "error" if problem.severity == "error" else "warning"
            text += f"\n{problem.hint}" if problem.hint else ""
    _, line, column = problem.position
    path = escaped(f"{folder}/{problem.position.file}" if folder else problem.position.file, in_property=True)
    return f"::{kind} file={path},line={line},col={column},title={escaped(title, in_property=True)}::{escaped(text)}"


def counted(problems: Iterable[Problem]) -> str:
    """The closing line: how many of each kind."""
    errors = asks = answered = 0
    for problem in problems:
        if problem.severity == "error":
            errors += 1
        elif problem.acknowledged is None:
            asks += 1
        else:
            answered += 1
    parts = [_number(errors, "error"), _number(asks, "question")]
    if answered:
        parts.append(f"{_number(answered, 'question')} acknowledged")
    return ", ".join(parts)


def _number(count: int, noun: str) -> str:
    return f"{count} {noun}" + ("" if count == 1 else "s")


def json_text(problems: Iterable[Problem], quoted: int, unproved: int, notes: Iterable[Note] = ()) -> str:
    """The whole answer of `check --format json`; `notes` only where there are any."""
    import json  # the other forms do without

    whole: dict[str, object] = {
        "problems": [as_json(problem) for problem in problems],
        "figures": {"quoted": quoted, "unproved": unproved},
    }
    if told := [{**note.position._asdict(), "message": note.message} for note in notes]:
        whole["notes"] = told
    return json.dumps(whole, ensure_ascii=False, indent=1)

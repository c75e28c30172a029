"""A fault of syntax in a YAML file, told to somebody who fills in a form: where it is, what it is, what to type."""

from __future__ import annotations

import re
from typing import Any

import yaml

from ..compiled_patterns import compiled
from ..problems import Position, Problem, error
from ..records import NamedTuple
from .sheet import Sheet, first_of, quoted_value


def fault_of(sheet: Sheet, fault: yaml.MarkedYAMLError) -> Problem:
    """What is wrong where the parser gave up."""
    here = fault.problem_mark or fault.context_mark
    if here is None:
        tells = f"YAML cannot read this: {fault.problem}"
        return error(Position(sheet.file, 1, 1), "yaml-syntax", tells, "compare it with a file that is read")
    opened = fault.context_mark or here
    mark, rule, message, hint = _described_fault(sheet, fault.problem or "", fault.context or "", here, opened)
    return error(Position(sheet.file, mark.line + 1, mark.column + 1), rule, message, hint)


_Fault = tuple[Any, str, str, str]
"""The place, rule, message and hint for something that YAML cannot read."""


def _described_fault(sheet: Sheet, problem: str, context: str, here: Any, opened: Any) -> _Fault:
    """A fault as the parser words it, told so that its author can mend it."""
    return (
        _unbroken(sheet, here, opened)
        or _otherwise_begun(sheet, here, opened)
        or _without_dash(sheet, problem, here)
        or _without_comma(sheet, problem, here, opened)
        or _misread_text(sheet, problem, context, here, opened)
        or _unended(sheet, problem, context, here, opened)
        or _misplaced(sheet, problem, here)
    )


class _Mark(NamedTuple):
    """A place that the parser has not marked, from 0."""

    line: int
    column: int


def _unbroken(sheet: Sheet, here: Any, opened: Any) -> _Fault | None:
    """A no-break space where YAML expects a plain one: behind a colon or a dash, or as indent."""
    for mark in (here, opened):
        line = sheet.line(mark.line)
        found = _find_unbroken(line)
        if found is not None:
            name = f"U+{ord(found[1]):04X}"
            message = f"there is a no-break space ({name}) here, which YAML takes for a letter: type a plain blank"
            hint = "delete it, then press the space bar: no editor shows the difference"
            return _Mark(mark.line, found.start(1)), "yaml-syntax", message, hint
    return None


_find_unbroken = compiled("(?:^\\s*|[:-] ?)([\u00a0\u2007\u202f])").search


def _otherwise_begun(sheet: Sheet, here: Any, opened: Any) -> _Fault | None:
    """A line that begins with a bullet, a long dash, or a dash without its blank."""
    for mark in (here, opened):
        found = _find_bullet(sheet.line(mark.line))
        if found is not None:
            sign, field = found[1], found[2]
            what = f'"{first_of(sign + field)}"'
            if sign != "-":
                message = f'"{sign}" before "{first_of(field)}" begins no item of a list: type a dash and a blank'
            else:
                message = f"{what} is not an item of a list: a blank is missing after its dash"
            return _Mark(mark.line, found.start(1)), "yaml-syntax", message, f"- {field}"
    return None


_find_bullet = compiled(r"^[ \t]*(?:([•·●▪◦‣∙*–—−][ \t]*|-)([A-Za-z_{].*))").match


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


_FIRST_FIELDS = frozenset(
    ("id", "level", "words", "factor", "outcome", "rule", "of", "between", "measure", "for", "by")
)
"""What the items of the form's lists begin with."""


def _without_dash(sheet: Sheet, problem: str, here: Any) -> _Fault | None:
    """The first item of a list without its dash: "claims:", below it "id: a", and the other fields deeper."""
    if not problem.startswith("mapping values") or here.line < 2:
        return None
    first, above = sheet.line(here.line - 1), sheet.line(here.line - 2)
    indent, inner = _indent(first), _indent(sheet.line(here.line))
    is_below = above.rstrip().endswith(":") and _indent(above) <= indent < inner
    if not is_below or first.lstrip().startswith("-") or ": " not in first:
        return None
    whole = first.strip()
    mark = _Mark(here.line - 1, indent)
    if whole.partition(":")[0] not in _FIRST_FIELDS:
        message = f'"{first_of(whole)}" is not indented like the line below it'
        return mark, "yaml-syntax", message, f"begin it with {inner} blanks, as line {here.line + 1}"
    message = f'a dash is missing before "{first_of(whole)}": each item of a list begins with "- "'
    return mark, "yaml-syntax", message, f"- {whole}"


def _without_comma(sheet: Sheet, problem: str, here: Any, opened: Any) -> _Fault | None:
    """Two fields in braces with a semicolon or nothing between them, and fields in round brackets."""
    text = sheet.line(here.line)
    if text[here.column : here.column + 1] != ":" or not (_is_unclosed(problem) or problem.startswith("mapping")):
        return None
    round_ = _find_round(text)
    if round_ is not None:
        message = f'"{first_of(round_[1])}" is read as a text: fields stand together in braces'
        return _Mark(here.line, round_.start(1)), "yaml-syntax", message, f"{{{round_[1][1:-1]}}}"
    found = _find_two_fields(text[: here.column])
    if found is None or sheet.line(opened.line)[opened.column : opened.column + 1] != "{":
        return None
    value, name = found[1], found[3]
    message = f'"{value}{found[2].rstrip() or " "}{name}": a comma is missing before "{name}:"'.replace(";", "; ")
    tail = first_of(text[here.column :].split(",")[0].split("}")[0])
    return _Mark(here.line, found.start(1)), "yaml-syntax", message, f"{value}, {name}{tail}"


_find_round = compiled(r"(?:^|[:-] )\s*(\(\w+: .*\))\s*$").search
_find_two_fields = compiled(r":\s+([^,:{}\[\]]*?[^,:;{}\[\]\s])(;\s*|\s+)([a-z_]+)$").search


def _misread_text(sheet: Sheet, problem: str, context: str, here: Any, opened: Any) -> _Fault | None:
    """A text in which a character means something else to YAML."""
    text = sheet.line(here.line)
    sign = text[here.column : here.column + 1]
    is_mapping = problem.startswith("mapping values")
    if (is_mapping or _is_unclosed(problem)) and sign == ":" and ": " in text[: here.column]:
        message = 'a second ": " in this text cuts it short: put the whole text in quotes'
        return here, "text-needs-quotes", message, quoted_value(text) or _QUOTE_ALL
    if is_mapping:
        message = "this line is indented further than the field above it, which already has a value"
        return here, "yaml-syntax", message, _indented_as(sheet, here.line)
    if "block scalar" in context:
        return opened, "text-needs-quotes", *_must_be_quoted(sheet, opened)
    if "tab character" in problem or ("cannot start any token" in problem and sign == "\t"):
        message = "there is a tab here: indent with blanks"
        return here, "yaml-syntax", message, f"delete it, then: {_indented_as(sheet, here.line)}"
    if "scanning an alias" in context:
        return opened, "text-needs-quotes", *_must_be_quoted(sheet, opened)
    if "cannot start any token" in problem or "expected node content" in problem:
        return here, "text-needs-quotes", *_must_be_quoted(sheet, here)
    return None


_QUOTE_ALL = 'type " where the text begins and where it ends'


def _is_unclosed(problem: str) -> bool:
    return "expected ',' or" in problem


def _indented_as(sheet: Sheet, line: int) -> str:
    """How many blanks a line probably begins with: those of a line above that are nearest to its own."""
    above: dict[int, int] = {}
    limit = 1 << 20
    for number in range(line - 1, max(-1, line - 200), -1):
        text = sheet.line(number)
        start = text.lstrip(" ")
        if not start or start[0] == "#":
            continue
        column = len(text) - len(start)
        for each in (column + 2, column) if start.startswith("- ") else (column,):
            if each < limit:
                above[each] = number + 1
                limit = each
        if not limit:
            break
    if not above:
        return "begin it where the fields of its block begin"
    own = sheet.line(line)
    # A tab is as wide as whoever typed it likes.
    wanted = max(above) if own.lstrip(" ").startswith("\t") else _indent(own)
    near = min(above, key=lambda column: (abs(column - wanted), -column))
    return f"begin it with {near} blanks, as the fields of line {above[near]}"


def _unended(sheet: Sheet, problem: str, context: str, here: Any, opened: Any) -> _Fault | None:
    """Something that was begun and not ended: a quote, an escape, a bracket, a field."""
    if "quoted scalar" in context and "end of stream" in problem:
        line = sheet.line(opened.line)
        quote = line[opened.column : opened.column + 1]
        hint = f"{line[: opened.column].strip()} {line[opened.column :].strip()}{quote}"
        return opened, "yaml-syntax", "the quote that opens here is never closed", hint
    if "escape" in problem:
        message = "a backslash between double quotes has a meaning of its own: use single quotes instead"
        return here, "yaml-syntax", message, "type ' in place of both quotes"
    if _is_unclosed(problem):
        line = sheet.line(opened.line)
        bracket = line[opened.column : opened.column + 1]
        rest = first_of(sheet.line(here.line)[here.column :])
        comma = f', or a comma is missing before "{rest}"' if rest and here.line == opened.line else ""
        closing = "}" if bracket == "{" else "]"
        hint = f'type "{closing}" where it ends: {line[opened.column :].strip()}{closing}'
        return opened, "yaml-syntax", f'the bracket "{bracket}" that opens here is not closed{comma}', hint
    if "could not find expected ':'" in problem:
        return _no_field(sheet, here, opened)
    return None


def _no_field(sheet: Sheet, here: Any, opened: Any) -> _Fault:
    """A line without ": ", where only a field can stand."""
    whole = sheet.line(opened.line)[opened.column :].strip()
    message = f'"{first_of(whole)}" is not of the form "field: value"'
    found = _find_joined(whole)
    if found is None:
        return opened, "yaml-syntax", message, 'type the name of a field, ": " and its value, or delete the line'
    if found[2] == ":":
        message += ": a blank is missing after the colon"
    return opened, "yaml-syntax", message, f"{found[1]}: {found[3]}"


_find_joined = compiled(r"([a-z_]+) ?([:=]) ?(\S.*)").fullmatch


def _misplaced(sheet: Sheet, problem: str, here: Any) -> _Fault:
    """Something that is whole and stands where it cannot."""
    if "another document" in problem:
        message = 'a second document begins here with "---": each file may hold only one'
        return here, "yaml-syntax", message, "move what follows into a file of its own, and delete this line"
    if "block sequence entries" in problem:
        message = 'a list must begin on a line of its own, with each item after "- "'
        return here, "yaml-syntax", message, "begin a new line before the dash"
    if "nesting" in problem:
        return here, "yaml-syntax", "brackets or lists are nested too deep", "close those that are not needed"
    if sheet.line(here.line)[: here.column].rstrip().endswith(("'", '"')):
        message = "the text goes on after its closing quote: put all of it in quotes, and double any quote inside it"
        return here, "text-needs-quotes", message, _QUOTE_ALL
    if "did not find expected" in problem:
        message = "this line is not indented like the fields or items above it"
        return here, "yaml-syntax", message, _indented_as(sheet, here.line)
    return here, "yaml-syntax", f"YAML cannot read this: {problem}", _QUOTE_ALL


_find_field = compiled(r"([\w-]+):\s*$").search
_find_other_field = compiled(r",\s*[\w-]+:\s|[}\]]\s*$").search


def _must_be_quoted(sheet: Sheet, mark: Any) -> tuple[str, str]:
    """Message and hint for a text whose first character means something else to YAML."""
    text = sheet.line(mark.line)
    sign = text[mark.column : mark.column + 1]
    if not sign:
        return "a value is missing here", "type it, or delete the field"
    message = f'a text that begins with "{sign}" must be in quotes'
    field = _find_field(text[: mark.column])
    rest = text[mark.column :]
    if sign not in "]},[{" and field is not None and _find_other_field(rest):
        # Several fields in brackets: the value ends at the comma before the next one.
        value = re.split(r",\s|[}\]]", rest, maxsplit=1)[0].strip()
        return message, quoted_value(f"{field[1]}: {value}") or _QUOTE_ALL
    return message, _QUOTE_ALL if sign in "]},[{" else quoted_value(text) or _QUOTE_ALL

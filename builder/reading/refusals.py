"""What is said of a value that has not the shape its field expects, and what may have been meant."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from .parsing import MISSING
from .yaml_text import MappingNode, ScalarNode, Sheet


def is_cut_by_comma(value: Any, sheet: Sheet) -> bool:
    """True for what stands behind a comma in `{ }` without a colon: the rest of a text."""
    if value.__class__ is not ScalarNode or value.value or value.style:
        return False
    before = sheet.before(value).rstrip()
    return bool(before) and before[-1] != ":"


def refuse_comma_cut(name: Any, block: Any, sheet: Sheet) -> None:
    """Notes that a comma cut a text in `{ }`, with the whole text where it is known."""
    previous = sheet.previous(block, name)
    rest = name.value
    if previous is None or previous[1].__class__ is not ScalarNode or not previous[1].value:
        sheet.error(
            name,
            "comma-cut-text",
            f'"{shortened(rest)}" has no value: the text was cut off at a comma, put it in quotes',
        )
        return
    between = sheet.line(name.start_mark.line)[: name.start_mark.column]
    blank = " " if between.endswith(" ") or not between.strip() else ""
    whole = f'{previous[0].value}: "{previous[1].value},{blank}{rest}"'
    kind = "number" if (previous[1].value + rest).replace(".", "").isdecimal() and not blank else "text"
    if kind == "number" and (len(rest) != 3 or previous[1].value == "0"):
        point = f"{previous[1].value}.{rest}"
        tells = f'this number was cut off at the comma before "{shortened(rest)}": a decimal point is written "."'
        sheet.error(name, "comma-cut-text", tells, f"write {previous[0].value}: {point}")
        return
    sheet.error(
        name,
        "comma-cut-text",
        f'this {kind} was cut off at the comma before "{shortened(rest)}": put it in quotes',
        f"write {whole}",
    )


def refuse_given_twice(key: Any, block: Any, what: str, sheet: Sheet) -> None:
    """Notes that a field is given twice; in an item of a list that begins again with its first field, once for all that
    follows, that a dash is missing there."""
    names = [name.value for name, _ in block.value]
    again = names.index(names[0], 1) if names[0] in names[1:] else len(names)
    place = next(at for at, (name, _) in enumerate(block.value) if name is key)
    is_item = sheet.before(block.value[0][0]).rstrip().endswith("-")
    if not is_item or place < again or sheet.before(block.value[again][0]).strip():
        sheet.error(key, "duplicate-field", f'"{key.value}" is given twice in {what}')
    elif place == again:
        line = shortened(sheet.line(key.start_mark.line))
        tells = f'a dash is missing before "{line}": {what} begins here again'
        sheet.error(key, "duplicate-field", tells, f"- {line}")


def refuse(node: Any, sheet: Sheet, expected: str) -> Any:
    """Notes that the value is empty or of another shape than expected."""
    if node.__class__ is ScalarNode:
        if node.value.strip():
            return sheet.error(node, "wrong-shape", f'"{shortened(node.value)}" is given where {expected} is expected')
        behind = sheet.behind(node).strip()
        if not node.style and behind.startswith("#") and behind[1:2].strip():
            return sheet.error(
                node,
                "text-needs-quotes",
                f'"{shortened(behind)}" is read as a comment, so the field is empty: put the text in quotes',
            )
        return sheet.error(node, "empty-field", f"the value is missing: type {expected}, or leave the field out")
    if node.__class__ is MappingNode:
        if (
            expected.startswith(("a text", "one of"))
            and len(node.value) == 1
            and node.value[0][0].__class__ is ScalarNode
        ):
            first = node.value[0][0].value
            return sheet.error(
                node,
                "text-needs-quotes",
                f'the colon after "{shortened(first)}" cuts this text short: put the whole text in quotes',
            )
        return sheet.error(node, "wrong-shape", f"a block of fields is given where {expected} is expected")
    return sheet.error(node, "wrong-shape", f"a list is given where {expected} is expected")


def nearest(text: str, choices: Iterable[str]) -> str:
    """The choice that was surely meant, or ""."""
    from difflib import get_close_matches  # only a message needs it, and a check without problems should not pay for it

    lowered = text.strip().lower().replace("_", " ").replace("-", " ")
    if len(lowered) > 40:
        return ""
    plain = {choice.replace("_", " ").replace("-", " "): choice for choice in choices}
    near = get_close_matches(lowered, plain, 1, 0.7)
    return plain[near[0]] if near else ""


def meant(text: str, choices: Iterable[str]) -> str:
    """ "did you mean ...?" where one of the choices is near, or what is not seen in the text."""
    if unbroken := no_break_space(text):
        return unbroken
    near = nearest(text, choices)
    return f"did you mean {near}?" if near else ""


def or_block(fields: Iterable[str]) -> str:
    """That a block of these fields may stand here too; "" for none."""
    typed = ", ".join(f"{name}: …" for name in fields)
    return f"or type a block: {{{typed}}}" if typed else ""


_ABBREVIATED = {"nr": "not reported", "n/r": "not reported", "na": "not applicable", "n/a": "not applicable"}


def missing_value_meant(text: str) -> str:
    """ "did you mean not reported?" and the like."""
    whole = _ABBREVIATED.get(text.lower())
    return f"did you mean {whole}?" if whole else meant(text, sorted(MISSING))


def shortened(text: str) -> str:
    """A text as a message quotes it: blanks collapsed, and not too long."""
    text = " ".join(text.split())
    return text if len(text) <= 60 else text[:59].rstrip() + "…"


_UNBROKEN = {"\u00a0": "U+00A0", "\u2007": "U+2007", "\u202f": "U+202F"}


def no_break_space(text: str) -> str:
    """What to do about a no-break space in a text, which no editor tells from a plain one; "" without any."""
    for sign, name in _UNBROKEN.items():
        if sign in text:
            return f"there is a no-break space ({name}) in it: type a plain blank in its place, or delete it"
    return ""

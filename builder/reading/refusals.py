"""What is said of a value that has not the shape its field expects, and what may have been meant."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from ..compiled_patterns import compiled
from .parsing import MISSING
from .yaml_text import BROKEN, CutText, MappingNode, ScalarNode, Sheet


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
            "put the text from its beginning to its end in quotes",
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


_JOINING = ("and ", "or ", "but ")


def refuse_cut_items(node: Any, sheet: Sheet) -> bool:
    """True where an item of `[ ]` looks like the second half of a sentence that its comma cut."""
    found = False
    for before, entry in zip(node.value, node.value[1:], strict=False):
        if entry.__class__ is ScalarNode and not entry.style and entry.value.startswith(_JOINING):
            found = True
            sheet.ask(
                entry,
                "comma-cut-text",
                f'"{shortened(entry.value)}" begins like the rest of a sentence: was it cut off at a comma?',
                f'where it was: "{before.value}, {entry.value}"\n'
                'else write one sentence per line, each after "- ", or put each in quotes',
            )
    return found


def _order_of(block: Any) -> tuple[int, dict[int, int]]:
    """Where the first field of a block stands once more, or behind its last; and where each key stands."""
    names = [name.value for name, _ in block.value]
    again = names.index(names[0], 1) if names[0] in names[1:] else len(names)
    return again, {id(name): at for at, (name, _) in enumerate(block.value)}


def refuse_given_twice(key: Any, block: Any, what: str, sheet: Sheet) -> bool:
    """Notes that a field is given twice; in an item of a list that begins again with its first field, once for all that
    follows, that a dash is missing there: then True, since nobody knows what belongs to which of the two."""
    again, places = sheet.known_of(block, _order_of)
    place = places[id(key)]
    is_item = sheet.before(block.value[0][0]).rstrip().endswith("-")
    if not is_item or place < again or sheet.before(block.value[again][0]).strip():
        sheet.error(key, "duplicate-field", f'"{key.value}" is given twice in {what}', "delete one of the two")
        return False
    if place == again:
        line = shortened(sheet.line(key.start_mark.line))
        tells = f'a dash is missing before "{line}": {what} begins here again'
        sheet.error(key, "duplicate-field", tells, f"- {line}")
    return True


def refuse(node: Any, sheet: Sheet, expected: str, hint: str = "") -> Any:
    """Notes that the value is empty or of another shape than expected. hint: what to type, where it is known."""
    if node.__class__ is CutText:
        return BROKEN
    if node.__class__ is ScalarNode:
        if node.value.strip():
            tells = f'"{shortened(node.value)}" is given where {expected} is expected'
            return sheet.error(node, "wrong-shape", tells, hint or f"type {expected}")
        behind = sheet.behind(node).strip()
        if not node.style and behind.startswith("#") and behind[1:2].strip():
            return sheet.error(
                node,
                "text-needs-quotes",
                f'"{shortened(behind)}" is read as a comment, so the field is empty: put the text in quotes',
                f"{sheet.before(node).strip()} {in_quotes(behind)}",
            )
        tells = f"the value is missing: type {expected}, or leave the field out"
        return sheet.error(node, "empty-field", tells, hint or "where there is nothing to type, delete the line")
    if node.__class__ is MappingNode:
        if (
            expected.startswith(("a text", "one of"))
            and len(node.value) == 1
            and node.value[0][0].__class__ is ScalarNode
        ):
            first, rest = node.value[0]
            return sheet.error(
                node,
                "text-needs-quotes",
                f'the colon after "{shortened(first.value)}" cuts this text short: put the whole text in quotes',
                in_quotes(f"{first.value}: {rest.value}") if rest.__class__ is ScalarNode else "",
            )
        tells = f"a block of fields is given where {expected} is expected"
        return sheet.error(node, "wrong-shape", tells, hint or f"type {expected}")
    tells = f"a list is given where {expected} is expected"
    return sheet.error(node, "wrong-shape", tells, hint or f"without brackets and dashes, type {expected}")


def unreported(node: Any) -> str:
    """What to do about an empty value of a field that may say that the paper does not give it."""
    is_empty = node.__class__ is ScalarNode and not node.value.strip()
    return "where the paper does not give it, type not reported, or delete the line" if is_empty else ""


_NAMED_BY = {"levels": "level", "studies": "id", "claims": "id", "parts": "level", "shares": "what"}
"""By the name of a list: the field by which each of its items is known."""


def items_meant(node: Any, what: str) -> str:
    """How to write the items of a list that was typed as a block of fields or as one text."""
    kind = what.partition(",")[0]
    if node.__class__ is MappingNode and node.value and node.value[0][0].__class__ is ScalarNode:
        name, value = node.value[0]
        if value.__class__ is MappingNode and kind in _NAMED_BY:
            return f"begin each with a dash and its name: - {_NAMED_BY[kind]}: {name.value}"
        return f"begin each with a dash: - {name.value}: {value.value if value.__class__ is ScalarNode else '...'}"
    if node.__class__ is ScalarNode and node.value.strip():
        rows = _levels_typed(node.value) if kind == "levels" else ""
        return rows or f"begin each with a dash, on a line of its own: - {shortened(node.value)}"
    return ""


_find_rows = compiled(r"(\S.*?)[\s:,]+([0-9]+) ?(?:/|of|out of) ?([0-9]+)(?:[ (]*([0-9.]+ ?%)\)?)?", re.DOTALL).findall


def _levels_typed(text: str) -> str:
    """The levels of a table that was pasted as it is, "up to 3 mm 84/96 88% over 3 mm 28/44 64%", each after a dash."""
    rows = _find_rows(text)
    return "\n".join(
        f"- {{level: {name}, events: {events}, total: {total}{f', rate: {rate}' if rate else ''}}}"
        for name, events, total, rate in rows
    )


def in_quotes(text: str) -> str:
    """A text as YAML takes it whatever is in it."""
    return "'" + text.replace("'", "''") + "'" if '"' in text or "\\" in text else f'"{text}"'


def quoted_if_cut(text: str) -> str:
    """The same, in quotes only where between braces its comma or colon would cut it."""
    return in_quotes(text) if "," in text or ": " in text else text


def nearest(text: str, choices: Iterable[str]) -> str:
    """The choice that was surely meant, or ""."""
    from difflib import get_close_matches  # only a message needs it, and a check without problems should not pay for it

    lowered = text.strip().lower().replace("_", " ").replace("-", " ")
    if len(lowered) > 40:
        return ""
    plain = {choice.replace("_", " ").replace("-", " "): choice for choice in choices}
    near = get_close_matches(lowered, plain, 1, 0.7)
    return plain[near[0]] if near else ""


_OTHER_NAMES = {
    "n": ("total",), "N": ("total",), "sample": ("total",), "denominator": ("total",), "numerator": ("events",),
    "n_events": ("events",), "successes": ("events",), "failures": ("events",), "cases": ("events",),
    "randomised": ("treated",), "randomized": ("treated",), "allocated": ("treated",), "enrolled": ("treated",),
    "included": ("treated",), "followed": ("examined",), "recalled": ("examined",), "dropouts": ("lost",),
    "page": ("where",), "pages": ("where",), "place": ("where",), "locator": ("where",), "passage": ("where",),
    "ci": ("interval",), "confidence_interval": ("interval",), "percent": ("rate",), "percentage": ("rate",),
    "success": ("success_rate",), "survival": ("rate",), "name": ("title", "id", "level"), "label": ("title", "id"),
    "comment": ("note",), "remark": ("note",), "type": ("design", "kind"), "author": ("by",), "date": ("on",),
    "text": ("words",), "pvalue": ("p",), "p_value": ("p",), "std": ("sd",), "time": ("at",), "reader": ("by",),
}  # fmt: skip
"""What people call a field that the form calls otherwise."""


def field_meant(name: str, fields: Iterable[str]) -> str:
    """The field that was surely meant by a name that the form does not know, or ""."""
    known = tuple(fields)
    folded = name.strip().lower().replace("-", "_").replace(" ", "_")
    others = _OTHER_NAMES.get(folded, ())
    return next((each for each in others if each in known), "") or nearest(name, known)


_HOMES = {
    "a claim": ("question", "outcome", "follow_up", "factor", "known_at", "reference", "events", "total", "rate",
                "success_rate", "interval", "levels", "estimate", "contrast", "pairs", "test", "given"),
    "a study": ("species", "design", "selection", "population", "setting", "unit", "flow", "patients", "shares"),
    "a flow": ("eligible", "treated", "due", "examined", "lost", "discontinued", "died"),
    "`follow_up`": ("from", "timing", "at", "tolerance", "minimum", "maximum"),
    "this file": ("source", "read", "checked", "studies", "claims"),
}  # fmt: skip
"""By a block as messages call it: fields that stand there."""


def home_of(name: str) -> str:
    """The block that a field belongs to, as messages call it; "" for a field of no block."""
    return next((block for block, fields in _HOMES.items() if name in fields), "")


def meant(text: str, choices: Iterable[str]) -> str:
    """ "did you mean ...?" where one of the choices is near, or what is not seen in the text."""
    if unbroken := no_break_space(text):
        return unbroken
    near = nearest(text, choices)
    return f"did you mean {near}?" if near else ""


_READ_AT_ONCE = 12


def or_block(fields: Iterable[str]) -> str:
    """That a block of these fields may stand here too; "" for none."""
    names = list(fields)
    # Of a long record nobody reads a message with all of it; the first are what it cannot do without.
    shown = names if len(names) <= _READ_AT_ONCE else names[:3]
    typed = ", ".join(f"{name}: …" for name in shown)
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

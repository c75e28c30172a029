"""The fields of a situation: large choices whose answers stand in the page, with or without a script."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape
from urllib.parse import urlencode

from ..results.values.document import Blocks, ChoiceField, Paragraph, Situation
from .inline import typed_html


def situation_html(block: Situation, mark: str, level: int, blocks_html: Callable[[Blocks], str]) -> str:
    """Every field with its choices as links to the answers below it; a script turns them into switches.

    mark: the mark of a demonstration, for every answer. level: of the headings.
    blocks_html: prints the blocks of an answer.
    """
    fields = "\n".join(_field(field, mark, level, blocks_html) for field in block.fields)
    return (
        f'<div class="situation">\n{fields}\n'
        '<p class="clear" hidden><button class="target" type="button">Clear all answers</button></p>\n</div>'
    )


def _cannot_tell(label: str, mark: str, inner: str) -> str:
    """ "Can't tell": what each answer would change, one tap away, since every field not answered counts as that."""
    return f"<details><summary>If you {label}</summary>\n{inner}<p>{mark}</p>\n</details>"


def _field(field: ChoiceField, mark: str, level: int, blocks_html: Callable[[Blocks], str]) -> str:
    name = escape(field.field)
    choices = []
    answers = []
    places: dict[str, tuple[str, str]] = {}
    for choice in field.choices:
        value = escape(choice.value or "unknown")
        anchor = f"known-{name}-{value}"
        label = typed_html(choice.label, "definition")
        target, sets = anchor if choice.summary else f"ask-{name}", ""
        if choice.sets:
            # A choice without an answer of its own leads to that of the first field it sets.
            target = f"known-{choice.sets[0][0]}-{choice.sets[0][1]}"
            sets = f' data-sets="{escape(urlencode(choice.sets))}"'
        places[choice.value] = (target, choice.label)
        # A choice that leads to its own answer is told by that: the value stands only where it leads elsewhere.
        data = "" if target == anchor else f' data-value="{escape(choice.value)}"{sets}'
        choices.append(f'<li{_stands(field, choice.value)}><a class="target" href="#{target}"{data}>{label}</a></li>')
        if choice.summary:
            inner = blocks_html(choice.summary)
            about = f'<p class="about">{typed_html(field.ask)} <b>{label}</b>{mark}</p>\n{inner}'
            answers.append(
                f'<div class="known" id="{anchor}">\n'
                f"{about if choice.value else _cannot_tell(label, mark, inner)}\n</div>"
            )
    rows = "".join(choices)
    known = "\n".join(answers)
    heading = f'<h{level} id="ask-{name}">{typed_html(field.ask)}</h{level}>'
    drawing = _drawing(field, places) if field.picture is not None else ""
    noted = blocks_html(tuple(Paragraph(note, "quiet") for note in field.notes))
    answered = f'<div class="answers" aria-live="polite">\n{known}\n</div>'
    if any(choice.sets for choice in field.choices):
        # A chart is long, and so is what follows from it: both stand behind the question.
        follows = "\n".join(_field(item, mark, level, blocks_html) for item in field.follows)
        return (
            f'<details class="ask" data-field="{name}"><summary>{heading}</summary>\n'
            f'<ul class="choices bows">{rows}</ul>\n{answered}\n{follows}\n</details>'
        )
    measured = f' data-unit="{escape(field.unit)}"' if field.unit else ""
    return (
        f'<section class="ask" data-field="{name}"{measured}>\n{heading}\n{drawing}'
        f'<ul class="choices">{rows}</ul>\n{noted}{answered}\n</section>'
    )


def _stands(field: ChoiceField, value: str) -> str:
    """Where a number of a chart stands in its bow, as classes: which quarter, and how far from the middle."""
    for quarter, values in zip(("up left", "up", "left", ""), field.quarters, strict=False):
        if value in values:
            return f' class="{quarter} k{values.index(value)}"'
    return ""


def _drawing(field: ChoiceField, places: dict[str, tuple[str, str]]) -> str:
    """The drawing above the words: each shape that is an answer leads where its words lead.

    places: where each choice leads, and its label. The words below say the same, so nothing depends on seeing it.
    """
    if field.picture is None:
        return ""
    name = escape(field.field)
    shapes = []
    for value, text in field.picture.parts:
        if value and value in places:
            target, label = places[value]
            # Ids of shapes are levels and may recur on a page; the link has them as its data.
            drawn = re.sub(r' id="[^"]*"', "", text)
            shapes.append(
                f'<a href="#{target}" aria-label="{escape(label)}" data-field="{name}" data-value="{escape(value)}">'
                f'<g class="unit">{drawn}</g></a>'
            )
        else:
            shapes.append(text)
    frame = f'viewBox="{escape(field.picture.view_box)}" role="group" aria-label="{escape(field.ask)}"'
    inner = "".join(shapes)
    return f'<svg class="drawn" {frame}><g class="unit">{inner}</g></svg>\n'

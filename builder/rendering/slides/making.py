"""What a device makes a copy for one case from: all that may stand on each slide, and how much room there is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from xml.sax.saxutils import escape, quoteattr

from ...results.values.line import plain_text
from ...results.values.talk import Layout
from .fitting import BEFORE, DISTANCE, ELSEWHERE, INDENT, SIZES, SMALLEST, Fitted, Paragraph, Room
from .markup import paragraph_markup
from .pieces import Run
from .widths import BOLD, REGULAR, SPARE, WIDEST

NO_REPORT = "No report is named on these slides."
BEHIND = "References with DOI behind the end: "
"""What stands at the foot of a slide before the numbers of its reports, where their names have no room."""


def making_markup(slides: Iterable[Fitted], rooms: Mapping[Layout, Room], named: Mapping[str, str]) -> str:
    """Everything that `theme/javascripts/slides/` fits anew once the answers are known; none of it is seen.

    slides: those of all answers, and last the references. named: what the foot of a slide calls each report, by its
    key, in the order of their numbers.
    """
    firsts = [slide for slide in slides if slide.groups or not slide.paragraphs]
    *talk, references = firsts
    rows = [
        f'<t:making before="{BEFORE}" indent="{INDENT}" smallest="{SMALLEST}" distance="{DISTANCE}" spare="{SPARE}"'
        f' widest="{WIDEST}" behind={quoteattr(BEHIND)}>'
    ]
    rows.extend(
        f'<t:kind name="{kind}" size="{size}" distance="{distance}"/>' for kind, (size, distance) in SIZES.items()
    )
    rows.extend(_room(name, room) for name, room in rooms.items())
    rows.extend(
        f'<t:width of="{width}" bold="{bold}" signs={quoteattr(signs)}/>'
        for bold, table in (("", REGULAR), ("yes", BOLD))
        for width, signs in table.items()
    )
    rows.append(f"<t:rest>{_said(Paragraph((Run(plain_text(ELSEWHERE.line)),), ELSEWHERE.kind))}</t:rest>")
    rows.append(f"<t:none>{_said(Paragraph((Run(NO_REPORT),), ''))}</t:none>")
    for slide in talk:
        elsewhere = ' rest="elsewhere"' if slide.has_rest_elsewhere else ""
        groups = "".join(
            f"<t:group of={quoteattr(of)}>{''.join(map(_said, said))}</t:group>" for of, said in slide.groups
        )
        rows.append(f'<t:from name={quoteattr(slide.name)} layout="{slide.layout}"{elsewhere}>{groups}</t:from>')
    for (key, short), (_, said) in zip(named.items(), references.groups, strict=False):
        rows.append(
            f"<t:report key={quoteattr(key)} named={quoteattr(short)}>{''.join(map(_said, said))}</t:report>"
        )  # fmt: skip
    return "".join((*rows, "</t:making>"))


def _room(name: Layout, room: Room) -> str:
    size, distance = room.title_size
    return (
        f'<t:room layout="{name}" width="{room.body.width:g}" height="{room.body.height:g}"'
        f' title="{room.title.width:g}" size="{size}" distance="{distance}"'
        f' foot="{room.references.width:g}" lines="{room.references.height // DISTANCE:g}"/>'
    )


def _said(paragraph: Paragraph) -> str:
    """A paragraph in which a link names its address, for it is not yet known which slide will lead there."""
    markup = paragraph_markup(paragraph, lambda target: escape(target, {'"': "&quot;"}), is_first=False)
    return f'<t:said kind="{paragraph.kind}">{markup}</t:said>'

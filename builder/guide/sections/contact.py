"""Whom to call here, or that nobody was named."""

from __future__ import annotations

from urllib.parse import urlencode

from ...reading.model import Advice, Question
from ...results.findings.findings import Catalogue
from ...results.values.document import Block, Blocks, Paragraph
from ...results.values.line import Line, Link, Span, line, typed
from ..sentences.advice import with_door
from ..sentences.prose import NamedResult, prose

NO_CONTACT = "contact not set by this programme"
CALL_INSTEAD = "Call the supervisor in the room, or have the desk fetch one."
"""What fills the place of a contact that nobody set; that it is missing stands once behind it, and at the foot."""

# Common practice, no source: whom to call where a life is at stake, whoever else was named.
_SERVICE = "Life in danger? The emergency service first."
# Leans on nothing that a programme may have left unset.
_NOBODY = "Nobody answers? Go no further, stay, and send for help."
_NOBODY_AT_A_QUESTION = "Nobody answers? Go no further, cover it, stay, and send for help."


def has_contact(catalogue: Catalogue) -> bool:
    """True where this programme has named somebody to call."""
    number = catalogue.evidence.local.call_number
    return number is not None and number.text not in ("", "not set")


def contact_line(catalogue: Catalogue) -> Line:
    """Whom to call here, the number ready to tap; or whom to call instead, and that nobody was named."""
    local = catalogue.evidence.local
    if not has_contact(catalogue) or local.call_number is None:
        return line(CALL_INSTEAD)
    name = local.call_name.text if local.call_name and local.call_name.text != "not set" else ""
    number = local.call_number.text
    dialled = "".join(char for char in number if char.isdigit() or char == "+")
    shown = typed(number, "identifier")
    tapped: Line = (Link(f"tel:{dialled}", (shown,), "target call"),) if dialled else (shown,)
    return line("Call ", typed(name, "identifier") if name else "", ": " if name else "", tapped)


def contact_paragraph(catalogue: Catalogue) -> Paragraph:
    """Whom to call here; or whom instead, loudly, and that nobody was named."""
    if has_contact(catalogue):
        return Paragraph(contact_line(catalogue), "contact")
    return Paragraph(line(contact_line(catalogue), " ", Span("basis", (NO_CONTACT,))), "warning")


def contact_blocks(catalogue: Catalogue, *, at_question: bool = False) -> tuple[Block, ...]:
    """Whom to call here, whom for a life, a row each, and what to do where nobody answers.

    at_question: True on the page of a question, which knows that the place may be covered; elsewhere a list may say
        that it stays open.
    """
    nobody = _NOBODY_AT_A_QUESTION if at_question else _NOBODY
    return contact_paragraph(catalogue), Paragraph(line(_SERVICE)), Paragraph(line(nobody))


def call_for_answer(catalogue: Catalogue, question: Question, named: NamedResult, factor: str, level: str) -> Blocks:
    """Whom to call, and each reason in a line of its own, where an answer of the situation is one; else nothing."""
    blocks: list[Block] = []
    for reason in question.call:
        if not any(answer.factor.text == factor and answer.level.text == level for answer in reason.answers or ()):
            continue
        lead = line("Reason to call", _while_in_doubt(reason, factor), ": ")
        blocks.append(Paragraph(line(lead, prose(reason.words.text, catalogue, named, "instruction")), "warning"))
        if reason.caution is not None:
            caution = with_door(prose(reason.caution.text, catalogue, named, "instruction"), catalogue)
            blocks.append(Paragraph(caution, "caution"))
    if not blocks:
        return ()
    more = Link("#call", ("All reasons to call",))
    who = line(contact_line(catalogue), ". " if has_contact(catalogue) else " ", more)
    return (Paragraph(who, "warning"), *blocks)


def _while_in_doubt(reason: Advice, factor: str) -> Line:
    """ ", if this is so": of answers of several factors one alone may be given yet; the script takes it away."""
    answers = reason.answers or ()
    if all(answer.factor.text == factor for answer in answers):
        return ()
    needs = urlencode([(answer.factor.text, answer.level.text) for answer in answers])
    return (Span("in-doubt", (", if this is so",), needs),)

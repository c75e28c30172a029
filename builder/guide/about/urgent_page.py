"""The urgent page: every danger worse than the question, its signs, what to do until help is there, whom to call."""

from __future__ import annotations

from ...reading.model import Protocol, Urgent
from ...results.findings.findings import Catalogue
from ...results.values.document import Block, Details, Items, Page, Paragraph, Section
from ...results.values.line import Line, Link, line, typed
from ..sections.contact import contact_blocks, contact_paragraph
from ..sentences.advice import advice_list
from ..sentences.prose import NamedResult

# Common practice, no source: which life-threatening signs the rest of the list may wait for.
_LIFE_IN_DANGER = "Collapse, no breath? Call the emergency service first."


def urgent_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """Every entry of urgent.yaml in its own words, in the order typed; the anchor of each is its id.

    Questions name their own first; here all stand, since whoever opens this page may come from anywhere.
    """
    entries = catalogue.evidence.urgent
    contact, *instead = contact_blocks(catalogue)
    life = Paragraph(line(_LIFE_IN_DANGER), "lead")
    blocks: list[Block] = [
        life,
        Paragraph(line("Tap what you see, do what is written there, and call.")),
        contact,
    ]
    if not entries:
        blocks.append(Paragraph(line("This programme has written nothing here. Call for help."), "warning"))
    blocks.extend(_entry(catalogue, item, named) for item in entries.values())
    at_once = Paragraph(line("If something worse is happening that does not stand here, call at once."))
    blocks.append(Details("Something else: call at once", (life, at_once, contact, *instead), "part", anchor="call"))
    blocks.append(
        Paragraph(
            line(
                "This page names no drug and no dose. Local emergency protocol, your training and the person you call "
                "come before it."
            ),
            "caution",
        )
    )
    protocols = [item for item in catalogue.evidence.local.protocols if item.title.text != "not set"]
    rows = tuple(_protocol(item) for item in protocols) or (line("local protocols not set by this programme"),)
    blocks.append(Section("Local protocols", "local-protocols", (Items(rows),)))
    return Page(
        address="urgent/",
        kind="urgent",
        title="Something worse is happening",
        blocks=tuple(blocks),
        description="Signs of something worse, what to do until help is there, and whom to call.",
        edit="evidence/urgent.yaml",
        search=tuple(dict.fromkeys(item.title.text for item in entries.values())),
    )


def _entry(catalogue: Catalogue, item: Urgent, named: NamedResult) -> Details:
    """One emergency a view: what to do first, whom to call, and then the rest; its name says what is seen.

    Opening one closes the one before.
    """
    blocks: list[Block] = []
    approval = _approval(item)
    if approval:
        blocks.append(Paragraph(line(approval), "warning"))
    # Nobody ratifies an urgent entry through a question: each entry stands under its own people or "not yet ratified".
    first, rest = item.until_help[:1], item.until_help[1:]
    if first:
        blocks.append(advice_list(first, "until-help", catalogue, named, None, ordered=True))
    calls: list[Block] = [contact_paragraph(catalogue)]
    if item.call:
        calls.append(advice_list(item.call, "call", catalogue, named, None))
    else:
        calls.append(Paragraph(line("Whom to call for this is not set; call as your local protocol says."), "warning"))
    blocks.append(Section("Call", f"call-{item.id}", tuple(calls)))
    if rest:
        blocks.append(Paragraph(line("Until help is there"), "lead"))
        blocks.append(advice_list(rest, "until-help", catalogue, named, None, ordered=True, start=2))
    if item.signs:
        blocks.append(Paragraph(line("Signs"), "lead"))
        blocks.append(Items(tuple(line(typed(sign.text)) for sign in item.signs), kind="signs"))
    return Details(item.title.text, tuple(blocks), "danger", anchor=item.id, group="danger")


def _approval(item: Urgent) -> str:
    """Who has not approved the entry, said before anybody acts on it; "" where somebody stands behind every line."""
    entries = (*item.until_help, *item.call)
    unapproved = sum(entry.ratified is None for entry in entries)
    if not unapproved:
        return ""
    who = "Nobody here has approved this list" if unapproved == len(entries) else "Not all of this list is approved"
    return f"{who}: local protocol comes before it."


def _protocol(item: Protocol) -> Line:
    if item.link is None or not item.link.text.startswith(("https://", "http://")):
        return line(typed(item.title.text))
    return line(Link(item.link.text, (typed(item.title.text),)))

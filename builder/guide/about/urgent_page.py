"""The urgent page: every danger worse than the question, its signs, what to do until help is there, whom to call."""

from __future__ import annotations

from ...reading.model import Protocol, Urgent
from ..findings.findings import Catalogue
from ..saying.advice import advice_list
from ..saying.prose import NamedResult
from ..sections.contact import contact_line, has_contact
from ..values.document import Block, Items, Line, Link, Page, Paragraph, Section, line, typed


def urgent_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """Every entry of urgent.yaml in its own words, in the order typed; the anchor of each is its id.

    Questions name their own first; here all stand, since whoever opens this page may come from anywhere.
    """
    entries = catalogue.evidence.urgent
    blocks: list[Block] = [
        Paragraph(line("something worse is happening: find the sign, do what is written below it, and call."), "lead"),
        _contact(catalogue),
    ]
    if entries:
        links = tuple(
            line(Link(f"#{name}", (typed(item.title.text),), "target danger")) for name, item in entries.items()
        )
        blocks.append(Items(links, kind="dangers"))
    else:
        blocks.append(Paragraph(line("This programme has written nothing here. Call for help."), "warning"))
    blocks.extend(_entry(catalogue, item, named) for item in entries.values())
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


def _contact(catalogue: Catalogue) -> Paragraph:
    return Paragraph(contact_line(catalogue), "contact" if has_contact(catalogue) else "warning")


def _entry(catalogue: Catalogue, item: Urgent, named: NamedResult) -> Section:
    blocks: list[Block] = [Items(tuple(line(typed(sign.text)) for sign in item.signs), kind="signs")]
    # Nobody ratifies an urgent entry through a question: each entry stands under its own people or "not yet ratified".
    if item.until_help:
        blocks.append(Paragraph(line("Until help is there"), "lead"))
        blocks.append(advice_list(item.until_help, "until-help", catalogue, named, None, ordered=True))
    blocks.append(Paragraph(line("Call"), "lead"))
    blocks.append(_contact(catalogue))
    if item.call:
        blocks.append(advice_list(item.call, "call", catalogue, named, None))
    else:
        blocks.append(Paragraph(line("Whom to call for this is not set; call as your local protocol says."), "warning"))
    return Section(item.title.text, item.id, tuple(blocks), "danger")


def _protocol(item: Protocol) -> Line:
    if item.link is None or not item.link.text.startswith(("https://", "http://")):
        return line(typed(item.title.text))
    return line(Link(item.link.text, (typed(item.title.text),)))

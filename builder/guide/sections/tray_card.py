"""The card on the tray: where worse is handled, what not to do, what to do now, whom to call, what to have ready."""

from __future__ import annotations

from ...reading.model import Question
from ...results.findings.findings import Catalogue
from ...results.saying.people import NOT_RATIFIED
from ...results.values.document import Block, Entry, Facts, Paragraph, Sheet
from ...results.values.line import Line, Link, joined, line, typed
from ..sentences.advice import advice_list
from ..sentences.prose import NamedResult
from .contact import contact_paragraph
from .sheet_footer import sheet_footer


def tray_card(catalogue: Catalogue, question: Question, named: NamedResult) -> Sheet:
    """One small page (A6) to lay beside the instruments before anybody needs it."""
    blocks: list[Block] = [Paragraph(line("something worse is happening: ", _dangers(catalogue, question)), "dangers")]
    if question.stop:
        blocks.append(Paragraph(line("Do not"), "lead"))
        listed = advice_list(question.stop, "stop", catalogue, named, question.ratified)
        blocks.append(listed._replace(entries=tuple(_for_paper(item) for item in listed.entries)))
    else:
        blocks.append(Paragraph(line("Nobody has written a stop list for this question."), "warning"))
    now = question.steps_due("now")
    if now:
        blocks.append(Paragraph(line("Do now"), "lead"))
        steps = advice_list(now, "do", catalogue, named, question.ratified, ordered=True)
        blocks.append(steps._replace(entries=tuple(_for_paper(item) for item in steps.entries)))
    # Whom to call belongs to what is done, and not to what lies on the tray.
    blocks.append(contact_paragraph(catalogue))
    blocks.append(Paragraph(line("Have ready"), "lead"))
    blocks.append(Facts(_ready(catalogue, question), "ready"))
    blocks.append(sheet_footer(catalogue))
    return Sheet(question.title.text, "tray", tuple(blocks))


def _for_paper(item: Entry) -> Entry:
    """On a small card the names of those who ratified stay away; that nobody did is said."""
    return item if item.ratified == (NOT_RATIFIED,) else item._replace(ratified=())


def _dangers(catalogue: Catalogue, question: Question) -> Line:
    """This question's own dangers by name; the page behind them holds all others too."""
    urgent = catalogue.evidence.urgent
    own = [word.text for word in question.urgent if word.text in urgent]
    links = [line(Link(f"urgent/#{name}", (typed(urgent[name].title.text),), "urgent-link")) for name in own]
    return joined([*links, line(Link("urgent/", ("all dangers",), "urgent-link"))])


def _ready(catalogue: Catalogue, question: Question) -> tuple[tuple[Line, Line], ...]:
    """What each way to go on asks for; what all of them share stands once, in front; then the local kit."""
    wanted = [(option.title.text, [word.text for word in option.ready]) for option in question.options if option.ready]
    lists = [items for _, items in wanted]
    shared = [item for item in lists[0] if all(item in items for items in lists[1:])] if len(lists) > 1 else []
    rows: list[tuple[Line, Line]] = []
    if shared:
        rows.append((line("For every way"), _items(shared)))
    for title, items in wanted:
        own = [item for item in items if item not in shared]
        if own:
            rows.append((line(typed(title)), _items(own)))
    kit = [word.text for word in catalogue.evidence.local.kit if word.text != "not set"]
    rows.append((line("Here"), _items(kit) if kit else line("kit not set by this programme")))
    return tuple(rows)


def _items(words: list[str]) -> Line:
    return joined([line(typed(text, "instruction")) for text in words])

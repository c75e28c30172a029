"""The urgent page: each danger worse than a question, whom to call, what not to do, what to do, what to say."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from ...reading.model import Protocol, Urgent
from ...results.findings.findings import Catalogue
from ...results.saying.people import OTHERWISE
from ...results.values.document import AdviceList, Block, Details, Items, Page, Paragraph, Section
from ...results.values.line import Line, Link, joined, line, typed
from ..sections.contact import contact_blocks, contact_paragraph
from ..sentences.advice import advice_list
from ..sentences.prose import NamedResult

# Common practice, no source: which life-threatening signs the rest of the list may wait for.
_LIFE_IN_DANGER = "Collapse, no breath? Call the emergency service first."

# What only whoever stands there can know; on paper or copied, it is filled in by hand.
_BLANKS = (
    "Noticed at ____. What, and how much: ________. Done, at what time: ________. Called: ________ at ____. "
    "Came: ________ at ____. How it went: ________. Told the patient: ________. Seen again: ________. "
    "Written by ________ at ____."
)


def urgent_page(catalogue: Catalogue, named: NamedResult) -> Page:
    """Every entry of urgent.yaml in its own words, in the order typed; the anchor of each is its id.

    Questions name their own first; here all stand, since whoever opens this page may come from anywhere.
    """
    entries = catalogue.evidence.urgent
    contact, *instead = contact_blocks(catalogue)
    life = Paragraph(line(_LIFE_IN_DANGER), "lead")
    blocks: list[Block] = [life, contact]
    if not entries:
        blocks.append(Paragraph(line("This programme has written nothing here. Call for help."), "warning"))
    blocks.extend(_entry(catalogue, item, named) for item in entries.values())
    at_once = Paragraph(line("If something worse is happening that does not stand here, call at once."))
    blocks.append(Details("Something else: call at once", (life, at_once, contact, *instead), "part", anchor="call"))
    defer = "This page names no drug to give and no dose. Local protocol, training and the person you call come first."
    own = (Paragraph(line(defer), "caution"), _protocols(catalogue))
    blocks.append(Section("Local protocols", "local-protocols", own))
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
    """One emergency a view, in the order in which it is done; its name says what is seen.

    Opening one closes the one before.
    """

    # Nobody ratifies an urgent entry through a question: each entry stands under its own people or "not yet ratified".
    made = {name: advice_list(entries, name, catalogue, named, None) for name, entries in item.advice}
    basis, people = _most(made, "basis"), _most(made, "ratified")

    def listed(name: str, kind: str = "", *, ordered: bool = False) -> Block:
        # What most lines of all lists rest on is said once below them: whoever is in a hurry reads what to do.
        entries = tuple(
            entry._replace(
                basis=() if entry.basis == basis else entry.basis,
                ratified=() if entry.ratified == people else entry.ratified,
            )
            for entry in made[name].entries
        )
        return AdviceList(entries, kind or name, ordered)

    # Whoever has tapped its name reads first what is done for it. Whom to call comes next, and the bar leads there.
    blocks: list[Block] = []
    if item.stop:
        blocks.append(Section("Do not", f"stop-{item.id}", (listed("stop"),)))
    # One series of numbers: a call is no step of it, or whoever counts looks for the missing one.
    do_now = listed("until_help", "until-help", ordered=True)
    blocks.append(Section("Do now", f"now-{item.id}", (do_now, *_rests_on(item, basis, people))))
    blocks.append(Section("Call", f"call-{item.id}", _call(catalogue, item, listed)))
    if item.say:
        blocks.append(Section("Say to the patient", f"say-{item.id}", (listed("say"),)))
    if item.signs:
        signs = joined([line(typed(sign.text)) for sign in item.signs])
        blocks.append(Details("Is it really this?", (Paragraph(line("Signs: ", signs, "."), "about"),), "part"))
    if item.afterwards:
        after = "Afterwards: when to see again"
        blocks.append(Details(after, (listed("afterwards"),), "part", anchor=f"afterwards-{item.id}"))
    record = Paragraph(line(typed(item.title.text), ". ", _BLANKS), "record")
    blocks.append(Details("For the record", (record,), "part", anchor=f"record-{item.id}"))
    return Details(item.title.text, tuple(blocks), "danger", anchor=item.id, group="danger")


def _most(lists: Mapping[str, AdviceList], field: str) -> Line:
    """The basis or the people that most lines of all lists have, of several; () where no two have the same."""
    said = [getattr(entry, field) for listed in lists.values() for entry in listed.entries]
    plain = [each for each in said if len(each) == 1 and isinstance(each[0], str)]
    often: Line = max(dict.fromkeys(plain), key=plain.count, default=())
    return often if plain.count(often) > 1 else ()


def _call(catalogue: Catalogue, item: Urgent, listed: Callable[[str], Block]) -> tuple[Block, ...]:
    """Whom to call for it; below that, who that is here.

    The entry's own lines come first, since they say when it is the emergency service and not somebody of the house.
    """
    if item.call:
        return listed("call"), contact_paragraph(catalogue)
    unset = Paragraph(line("When to call for this is not set: call at once."), "warning")
    return contact_paragraph(catalogue), unset


def _rests_on(item: Urgent, basis: Line, people: Line) -> tuple[Block, ...]:
    """Below what is done now, in ordinary weight: that it holds until local protocol says otherwise, where nobody
    ratified a line, and what most lines of all lists rest on.
    """
    entries = [entry for _, entries in item.advice for entry in entries]
    open_ones = sum(entry.ratified is None or entry.basis.state is not None for entry in entries)
    is_whole = open_ones == len(entries)
    said: list[Line] = []
    if open_ones:
        ends = "not yet ratified here" if is_whole else "not all of it is ratified"
        said.append(line(f"This holds until local protocol says otherwise; {ends}."))
    rest = [part for part in (basis, () if is_whole else people) if part]
    if rest:
        said.append(line("Basis: ", joined(rest), f", {OTHERWISE}."))
    return (Paragraph(joined(said, " "), "basis"),) if said else ()


def _protocols(catalogue: Catalogue) -> Block:
    """The protocols that hold here; where none is set, whom to ask for them."""
    protocols = [item for item in catalogue.evidence.local.protocols if item.title.text != "not set"]
    if protocols:
        return Items(tuple(_protocol(item) for item in protocols))
    ask = "Ask the person you call which emergency protocol holds here"
    return Paragraph(line(f"{ask} (local protocols not set by this programme)."))


def _protocol(item: Protocol) -> Line:
    if item.link is None or not item.link.text.startswith(("https://", "http://")):
        return line(typed(item.title.text))
    return line(Link(item.link.text, (typed(item.title.text),)))

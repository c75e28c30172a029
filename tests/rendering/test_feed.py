"""The feed is read back by a strict parser of XML and held to the rules of Atom."""

from __future__ import annotations

import datetime
import re
from urllib.parse import urlsplit

import pytest
from demo import demo_built
from lxml import etree
from passageproof.rendering.feed import feed
from passageproof.results.values.news import News
from rendering.sample_guide import sample_guide

ATOM = "{http://www.w3.org/2005/Atom}"
# RFC 4287, sections 4.1.1 and 4.1.2: once and no more; and what else may stand there.
ONCE = ("id", "title", "updated")
IN_BOTH = {*ONCE, "author", "category", "contributor", "link", "rights"}
IN_FEED = {*IN_BOTH, "generator", "icon", "logo", "subtitle", "entry"}
IN_ENTRY = {*IN_BOTH, "content", "published", "source", "summary"}
# RFC 3339, section 5.6, with the capitals that RFC 4287, section 3.3, asks for.
STAMP = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")


def read(text: str) -> etree._Element:
    parser = etree.XMLParser(recover=False, resolve_entities=False, no_network=True)
    root = etree.fromstring(text.encode("utf-8"), parser)
    assert root.tag == f"{ATOM}feed"
    return root


def held(part: etree._Element, allowed: set[str]) -> None:
    names = [child.tag for child in part]
    assert {name.removeprefix(ATOM) for name in names} <= allowed
    for once in ONCE:
        assert names.count(ATOM + once) == 1, once
    stamp = part.findtext(f"{ATOM}updated")
    assert STAMP.fullmatch(stamp or "")
    datetime.datetime.fromisoformat(stamp)
    # Section 4.2.6: an id is an absolute IRI.
    assert urlsplit(part.findtext(f"{ATOM}id")).scheme == "urn"
    links = part.findall(f"{ATOM}link")
    alternates = [(link.get("type"), link.get("hreflang")) for link in links if link.get("rel") == "alternate"]
    assert len(set(alternates)) == len(alternates)
    assert all(link.get("href") for link in links)


def entries(root: etree._Element) -> list[etree._Element]:
    return root.findall(f"{ATOM}entry")


@pytest.fixture(scope="module")
def demo() -> str:
    return demo_built().files["feed.xml"]


def test_the_feed_of_the_demonstration_holds_to_the_rules(demo: str) -> None:
    root = read(demo)
    held(root, IN_FEED)
    # Section 4.1.1: an author of the feed, or of every entry.
    assert root.findtext(f"{ATOM}author/{ATOM}name")
    found = entries(root)
    assert len(found) > 20
    for entry in found:
        held(entry, IN_ENTRY)
        # Section 4.1.2: an entry without content has an alternate; 4.2.7.2: a link that says nothing else is one.
        assert [link.get("rel", "alternate") for link in entry.findall(f"{ATOM}link")] == ["alternate"]
    ids = [entry.findtext(f"{ATOM}id") for entry in found]
    assert len({*ids, root.findtext(f"{ATOM}id")}) == len(ids) + 1


def test_every_entry_says_that_it_is_invented_and_leads_to_a_page(demo: str) -> None:
    built = demo_built()
    assert built.guide is not None
    for entry in entries(read(demo)):
        assert entry.findtext(f"{ATOM}title").startswith("invented for demonstration: ")
        assert entry.findtext(f"{ATOM}summary").startswith("invented for demonstration: ")
        assert entry.find(f"{ATOM}link").get("href") in built.guide.pages.heads


def test_a_retraction_has_the_day_of_its_notice_and_no_day_is_later_than_the_evidence(demo: str) -> None:
    root = read(demo)
    days = {entry.findtext(f"{ATOM}title"): entry.findtext(f"{ATOM}updated")[:10] for entry in entries(root)}
    assert days["invented for demonstration: Retracted: Elwick 2014"] == "2022-06-30"
    assert max(days.values()) <= "2026-10-30"
    assert root.findtext(f"{ATOM}updated")[:10] == max(days.values())


def test_the_same_evidence_gives_the_same_bytes() -> None:
    guide = demo_built().guide
    assert guide is not None
    assert feed(guide) == feed(guide)


DAY = datetime.date(2026, 2, 3)


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("a\x00b\x1bc", "a b c"),
        ("\u202egnp.exe", "gnp.exe"),
        ("one\u2066 two\u2069", "one two"),
        ("]]> <b>&amp;</b>", "]]> <b>&amp;</b>"),
        ("\ud800\uffff end", "end"),
        ("שלום", "שלום"),
    ],
    ids=["control", "override", "isolate", "markup", "no letters", "from right to left"],
)
def test_signs_that_no_reader_of_feeds_should_meet_are_taken_out(typed: str, shown: str) -> None:
    guide = sample_guide()._replace(is_demonstration=False, news=(News("x/read", typed, typed, "sources/x/", DAY),))
    (entry,) = entries(read(feed(guide)))
    assert entry.findtext(f"{ATOM}title") == shown
    assert entry.findtext(f"{ATOM}summary") == shown


def test_an_id_stays_whatever_else_is_told_and_is_another_in_another_guide() -> None:
    one = News("x/retracted", "Retracted: X", "for a reason", "sources/x/", DAY)
    guide = sample_guide()._replace(news=(one,))

    def name(of: object) -> str:
        (entry,) = entries(read(feed(of)))
        return str(entry.findtext(f"{ATOM}id"))

    later = guide._replace(news=(one._replace(title="Retracted", on=datetime.date(2026, 3, 3)),))
    assert name(later) == name(guide)
    assert name(guide._replace(repository="https://example.org/other")) != name(guide)


def test_a_guide_of_nothing_has_a_feed_of_nothing() -> None:
    root = read(feed(sample_guide()._replace(news=())))
    held(root, IN_FEED)
    assert entries(root) == []

"""Slides keep the rules of their format, by our own reading of it: parts, relationships, ids, the order of elements.

No schema is at hand in a registry package; the order of elements is that of ECMA-376 Part 1 (from memory), for those
that are written.
"""

from __future__ import annotations

from functools import cache

import pytest
from demo import demo_built
from lxml import etree
from passageproof.rendering.slides.package import read_package
from passageproof.results.values.talk import slides_path
from slides import A, Deck, P, R, T, read_deck, relations

QUESTIONS = ("broken-instrument", "exposed-pulp", "root-perforation")
each_question = pytest.mark.parametrize("question", QUESTIONS)

# ECMA-376 Part 1, 19.3 (PresentationML), 20.1 and 21.1 (DrawingML): what may stand in an element, in its order.
ORDER = {
    f"{P}sld": "p:cSld p:clrMapOvr p:transition p:timing p:extLst",
    f"{P}notes": "p:cSld p:clrMapOvr p:extLst",
    f"{P}sldLayout": "p:cSld p:clrMapOvr p:transition p:timing p:hf p:extLst",
    f"{P}sldMaster": "p:cSld p:clrMap p:sldLayoutIdLst p:transition p:timing p:hf p:txStyles p:extLst",
    f"{P}notesMaster": "p:cSld p:clrMap p:hf p:notesStyle p:extLst",
    f"{P}presentation": "p:sldMasterIdLst p:notesMasterIdLst p:handoutMasterIdLst p:sldIdLst p:sldSz p:notesSz",
    f"{P}cSld": "p:bg p:spTree p:custDataLst p:controls p:extLst",
    f"{P}txStyles": "p:titleStyle p:bodyStyle p:otherStyle p:extLst",
    f"{P}sp": "p:nvSpPr p:spPr p:style p:txBody p:extLst",
    f"{P}nvSpPr": "p:cNvPr p:cNvSpPr p:nvPr",
    f"{P}pic": "p:nvPicPr p:blipFill p:spPr p:style p:extLst",
    f"{P}nvPicPr": "p:cNvPr p:cNvPicPr p:nvPr",
    f"{P}blipFill": "a:blip a:srcRect a:tile a:stretch",
    f"{P}spPr": "a:xfrm a:custGeom a:prstGeom a:noFill a:solidFill a:gradFill a:ln a:effectLst a:extLst",
    f"{P}txBody": "a:bodyPr a:lstStyle a:p",
    f"{A}p": "a:pPr a:r a:br a:fld a:endParaRPr",
    f"{A}pPr": "a:lnSpc a:spcBef a:spcAft a:buClr a:buSzPct a:buFont a:buNone a:buAutoNum a:buChar a:tabLst a:defRPr",
    f"{A}lvl1pPr": "a:lnSpc a:spcBef a:spcAft a:buFont a:buNone a:buChar a:tabLst a:defRPr a:extLst",
    f"{A}r": "a:rPr a:t",
    f"{A}fld": "a:rPr a:pPr a:t",
    f"{A}rPr": "a:ln a:noFill a:solidFill a:highlight a:latin a:ea a:cs a:sym a:hlinkClick a:hlinkMouseOver a:extLst",
    f"{A}defRPr": "a:ln a:noFill a:solidFill a:highlight a:latin a:ea a:cs a:sym a:hlinkClick a:extLst",
    f"{A}ln": "a:noFill a:solidFill a:gradFill a:prstDash a:custDash a:round a:headEnd a:tailEnd",
    f"{A}themeElements": "a:clrScheme a:fontScheme a:fmtScheme a:extLst",
    f"{A}clrScheme": (
        "a:dk1 a:lt1 a:dk2 a:lt2 a:accent1 a:accent2 a:accent3 a:accent4 a:accent5 a:accent6 a:hlink a:folHlink"
    ),
    f"{A}fmtScheme": "a:fillStyleLst a:lnStyleLst a:effectStyleLst a:bgFillStyleLst",
}  # fmt: skip
IS_MIXED = {f"{A}p"}
"""Elements whose children after the first may come in any order."""


@cache
def made(question: str) -> Deck:
    return read_deck(b"".join(demo_built().files.pieces(slides_path(question))))


def short(tag: str) -> str:
    return tag.replace(A, "a:").replace(P, "p:")


@each_question
def test_elements_stand_in_the_order_of_the_format(question: str) -> None:
    wrong = []
    for name, content in made(question).parts.items():
        if not name.startswith("ppt/") or not name.endswith(".xml"):
            continue
        for element in etree.fromstring(content).iter():
            allowed = ORDER.get(element.tag)
            if allowed is None:
                continue
            names = [short(child.tag) for child in element]
            places = [allowed.split().index(each) if each in allowed.split() else -1 for each in names]
            if -1 in places or (element.tag not in IS_MIXED and places != sorted(places)):
                wrong.append((name, short(element.tag), names))
    assert wrong == []


@each_question
def test_every_relationship_leads_to_a_part_with_a_type(question: str) -> None:
    parts = made(question).parts
    content = b"".join(demo_built().files.pieces(slides_path(question)))
    package = read_package(content)
    for source, listed in package.relations.items():
        assert source == "" or source in parts
        assert len({relation.id for relation in listed}) == len(listed)
        for relation in listed:
            assert relation.is_outside or relation.target in parts, (source, relation)
    assert [name for name, kind in package.types.items() if kind == "application/octet-stream"] == []
    # Whatever names a relationship has it, and none is left that nothing names.
    for name, text in parts.items():
        if name.startswith(("ppt/slides/slide", "ppt/slideMasters/")) and name.endswith(".xml"):
            named = set()
            for element in etree.fromstring(text).iter():
                named |= {value for key, value in element.attrib.items() if key.startswith(R)}
            assert named <= {relation.id for relation in package.relations[name]}, name


@each_question
def test_ids_are_unique_where_the_format_wants_it(question: str) -> None:
    parts = made(question).parts
    for name, content in parts.items():
        if name.startswith("ppt/slides/slide") and name.endswith(".xml"):
            shapes = [found.get("id") for found in etree.fromstring(content).iter(f"{P}cNvPr")]
            assert len(set(shapes)) == len(shapes), name
    presentation = etree.fromstring(parts["ppt/presentation.xml"])
    slides = [int(found.get("id")) for found in presentation.iter(f"{P}sldId")]
    assert len(set(slides)) == len(slides)
    assert min(slides) >= 256  # ST_SlideId
    masters = [int(found.get("id")) for found in presentation.iter(f"{P}sldMasterId")]
    layouts = [
        int(found.get("id"))
        for found in etree.fromstring(parts["ppt/slideMasters/slideMaster1.xml"]).iter(f"{P}sldLayoutId")
    ]
    assert len({*masters, *layouts}) == len(masters) + len(layouts)
    assert min(*masters, *layouts) >= 2147483648  # ST_SlideMasterId, ST_SlideLayoutId


@each_question
def test_what_is_ours_stands_only_where_anything_may(question: str) -> None:
    # CT_OfficeArtExtension holds any element of another namespace; the part of our own is a part of its own.
    for name, content in made(question).parts.items():
        if name.endswith(".xml") and name.startswith("ppt/"):
            for found in etree.fromstring(content).iter(f"{T}run"):
                assert found.getparent().tag == f"{A}ext"
                assert found.getparent().getparent().tag == f"{A}extLst"


@each_question
def test_every_part_is_reached_from_the_presentation(question: str) -> None:
    parts = made(question).parts
    reached: set[str] = set()
    left = [""]
    while left:
        found = relations(parts, left.pop())
        new = set(found.values()) - reached
        reached |= new
        left.extend(new)
    assert {name for name in parts if not name.endswith(".rels")} - {"[Content_Types].xml"} == reached

"""What a presentation says of itself: every figure with its id and where it stands, what fills its blanks, its days."""

from __future__ import annotations

import itertools
from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from ...results.values.figures import Figure
from ...results.values.guide import Guide
from ...results.values.talk import Talk
from ..inline import figure_target
from .fitting import Fitted
from .markup import NAMESPACE
from .own_template import NAMESPACES, PRESENTATION
from .package import Package

_DATA = "http://schemas.openxmlformats.org/officeDocument/2006/customXml"


def add_listed(
    package: Package, guide: Guide, talk: Talk, slides: Iterable[Fitted], figures: dict[str, Figure], making: str = ""
) -> None:
    """Adds the part that lists slides, answers and figures; programs keep it beside the slides.

    making: what a copy for one case is made from (`making.py`); "" in such a copy.
    """
    rows = [_slide(number, slide) for number, slide in enumerate(slides, start=1)]
    rows.extend(_fields(talk))
    rows.extend(_figure(figure, talk.question) for _, figure in sorted(figures.items()))
    rows.append(making)
    marked = ' demonstration="yes"' if guide.is_demonstration else ""
    content = (
        f'<t:talk xmlns:t="{NAMESPACE}" {NAMESPACES} question={quoteattr(talk.question)} guide={quoteattr(guide.title)}'
        f' release={quoteattr(guide.release)} evidence="{guide.evidence_date.isoformat()}"{marked}>'
        f"{''.join(rows)}</t:talk>"
    )
    number = next(each for each in itertools.count(1) if f"customXml/item{each}.xml" not in package.parts)
    item, properties = f"customXml/item{number}.xml", f"customXml/itemProps{number}.xml"
    package.add(item, content, "application/xml")
    package.add(
        properties,
        f'<ds:datastoreItem ds:itemID="{{2F0D6C1E-7B52-5D0E-8C55-1A7B0C9E4D21}}" xmlns:ds="{_DATA}"><ds:schemaRefs>'
        f'<ds:schemaRef ds:uri="{NAMESPACE}"/></ds:schemaRefs></ds:datastoreItem>',
        "application/vnd.openxmlformats-officedocument.customXmlProperties+xml",
    )
    package.relate(PRESENTATION, "customXml", item)
    package.relate(item, "customXmlProps", properties)


def _slide(number: int, slide: Fitted) -> str:
    spare = ' spare="yes"' if slide.is_spare else ""
    return f'<t:slide number="{number}" name={quoteattr(slide.name)} of={quoteattr(slide.of)}{spare}/>'


def _fields(talk: Talk) -> Iterable[str]:
    for field, asks in talk.unanswered:
        answers = "".join(
            f"<t:answer value={quoteattr(name.partition('=')[2])} title={quoteattr(title)}/>"
            for name, title in talk.answers.items()
            if name.partition("=")[0] == field
        )
        yield f"<t:field id={quoteattr(field)} asks={quoteattr(asks)}>{answers}</t:field>"


def _figure(figure: Figure, question: str) -> str:
    """A figure, and the place of the site where its passage or its workings stand."""
    target = figure_target(figure)
    where = f"data/figures.jsonl{target}" if target.startswith("#") else target
    return f"<t:figure id={quoteattr(figure.id)} at={quoteattr(where)}>{escape(figure.text)}</t:figure>"


def add_days(package: Package, guide: Guide, talk: Talk) -> None:
    """Title and day of the document: that of the evidence, for the bytes know no other."""
    day = f"{guide.evidence_date.isoformat()}T00:00:00Z"
    about = "invented for demonstration" if guide.is_demonstration else ""
    content = (
        '<cp:coreProperties xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" '
        'xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" '
        'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">'
        f"<dc:title>{escape(talk.title)}</dc:title><dc:creator>{escape(guide.programme)}</dc:creator>"
        f"<dc:description>{escape(about)}</dc:description><cp:lastModifiedBy>{escape(guide.programme)}</cp:lastModifiedBy>"
        f'<dcterms:created xsi:type="dcterms:W3CDTF">{day}</dcterms:created>'
        f'<dcterms:modified xsi:type="dcterms:W3CDTF">{day}</dcterms:modified>'
        f"<cp:version>{escape(guide.release)}</cp:version></cp:coreProperties>"
    )
    name = "docProps/core.xml"
    package.add(name, content, "application/vnd.openxmlformats-package.core-properties+xml")
    kind = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties"
    package.relations[""] = [found for found in package.relations[""] if found.type != kind]
    package.relate("", kind, name)

"""Paragraphs and shapes of a slide in DrawingML; each number with what it is, for whoever reads the file again."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from xml.sax.saxutils import escape, quoteattr

from .fitting import BEFORE, INDENT, SIZES, SMALLEST, Box, Paragraph
from .own_template import NO_MARGIN, POINT, frame
from .pieces import Run

NAMESPACE = "urn:passageproof:talk:1"
"""Of what is ours in a presentation: the id of a figure beside its run, and the part that lists them all."""

# Names the extension to whoever meets it; a program that does not know it leaves it alone (ECMA-376 Part 1, extLst).
_EXTENSION = "{6B0F7C52-0E64-5C3B-9B0B-5E2B6C0D7A11}"

Address = Callable[[str], str]
"""Gives the id of the relationship that leads to an address outside."""


def _said_of_run(run: Run) -> str:
    told = {"figure": run.figure, "mark": run.mark, "blank": run.blank, "report": run.key}
    rows = "".join(f" {name}={quoteattr(value)}" for name, value in told.items() if value)
    if not rows:
        return ""
    return f'<a:extLst><a:ext uri="{_EXTENSION}"><t:run xmlns:t="{NAMESPACE}"{rows}/></a:ext></a:extLst>'


def _xml_text(text: str) -> str:
    """Text without signs that XML cannot hold."""
    return escape("".join(sign for sign in text if sign in "\t\n" or ord(sign) >= 32))


def run_markup(run: Run, size: int, colour: str, address: Address, *, is_bold: bool, is_slanted: bool = False) -> str:
    """One run. size: in points; 0: that of what it stands in."""
    marks = (f' sz="{size}00"' if size else "") + (' b="1"' if is_bold or run.is_bold else "")
    marks += ' i="1"' if is_slanted else ""
    fill = f'<a:solidFill><a:schemeClr val="{colour}"/></a:solidFill>' if colour else ""
    link = f'<a:hlinkClick r:id="{address(run.target)}"/>' if run.target else ""
    return (
        f'<a:r><a:rPr lang="en-GB"{marks} dirty="0">{fill}{link}{_said_of_run(run)}</a:rPr>'
        f"<a:t>{_xml_text(run.text)}</a:t></a:r>"
    )


def paragraph_markup(paragraph: Paragraph, address: Address, *, is_first: bool) -> str:
    """One paragraph of the text of a slide."""
    size, distance = SIZES[paragraph.kind]
    above = 0 if is_first else BEFORE
    colour = "tx2" if paragraph.kind == "quiet" else "tx1"
    runs = "".join(
        run_markup(run, size, colour, address, is_bold=paragraph.kind == "lead") for run in paragraph.runs
    )  # fmt: skip
    indent, bullet = 0, "<a:buNone/>"
    if paragraph.kind == "item":
        indent, bullet = INDENT * POINT, '<a:buFont typeface="Arial"/><a:buChar char="–"/>'
    return (
        f'<a:p><a:pPr marL="{indent}" indent="{-indent}"><a:lnSpc><a:spcPts val="{distance}00"/></a:lnSpc><a:spcBef>'
        f'<a:spcPts val="{above}00"/></a:spcBef><a:spcAft><a:spcPts val="0"/></a:spcAft>{bullet}</a:pPr>{runs}</a:p>'
    )


def line_markup(
    runs: Iterable[Run],
    size: int,
    distance: int,
    colour: str,
    address: Address,
    rest: str = "",
    *,
    is_bold: bool = False,
    is_slanted: bool = False,
) -> str:
    """A paragraph of a title, of the references or of the mark."""
    made = "".join(run_markup(run, size, colour, address, is_bold=is_bold, is_slanted=is_slanted) for run in runs)
    return (
        f'<a:p><a:pPr{rest}><a:lnSpc><a:spcPts val="{distance}00"/></a:lnSpc><a:spcBef><a:spcPts val="0"/></a:spcBef>'
        f"</a:pPr>{made}</a:p>"
    )


def shape(number: int, name: str, kind: str, paragraphs: str, box: Box | None = None, body: str = NO_MARGIN) -> str:
    """A shape with text. kind: of the placeholder that it fills; "" for a box of its own, which `box` then places."""
    holder = f"<p:nvPr><p:ph {kind}/></p:nvPr>" if kind else "<p:nvPr/>"
    locks = '<p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>' if kind else '<p:cNvSpPr txBox="1"/>'
    place = "<p:spPr/>"
    if box is not None:
        place = f'<p:spPr>{frame(box)}<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></p:spPr>'
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{number}" name={quoteattr(name)}/>{locks}{holder}</p:nvSpPr>{place}'
        f"<p:txBody>{body}<a:lstStyle/>{paragraphs or '<a:p/>'}</p:txBody></p:sp>"
    )


def empty_frame(number: int, box: Box, words: Iterable[Run]) -> str:
    """A place for an image that only the speaker has, with what belongs there."""
    run = "".join(run_markup(part, SMALLEST, "tx2", lambda target: "", is_bold=False) for part in words)
    fill, edge = (f'<a:solidFill><a:schemeClr val="{colour}"/></a:solidFill>' for colour in ("bg2", "accent3"))
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{number}" name="Frame for an image"/><p:cNvSpPr/><p:nvPr/></p:nvSpPr><p:spPr>'
        f'{frame(box)}<a:prstGeom prst="rect"><a:avLst/></a:prstGeom>{fill}'
        f'<a:ln w="19050">{edge}<a:prstDash val="dash"/></a:ln></p:spPr>'
        '<p:txBody><a:bodyPr wrap="square" lIns="254000" tIns="127000" rIns="254000" bIns="127000" anchor="ctr">'
        f'<a:noAutofit/></a:bodyPr><a:lstStyle/><a:p><a:pPr algn="ctr"/>{run}</a:p></p:txBody></p:sp>'
    )


def picture(number: int, name: str, says: str, relation: str, box: Box) -> str:
    """A picture with what it says to whoever cannot see it."""
    return (
        f'<p:pic><p:nvPicPr><p:cNvPr id="{number}" name={quoteattr(name)} descr={quoteattr(_xml_text(says))}/>'
        '<p:cNvPicPr><a:picLocks noChangeAspect="1"/></p:cNvPicPr><p:nvPr/></p:nvPicPr>'
        f'<p:blipFill><a:blip r:embed="{relation}"/><a:stretch><a:fillRect/></a:stretch></p:blipFill>'
        f'<p:spPr>{frame(box)}<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></p:spPr></p:pic>'
    )

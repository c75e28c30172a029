"""Our own template: the look of the guide's pages, on slides of 16 to 9."""

from __future__ import annotations

from collections.abc import Mapping

from ...results.values.talk import Layout
from .fitting import Box, Room
from .package import Package

POINT = 12700
"""English metric units in a point."""

WIDTH, HEIGHT = 960, 540
"""Of a slide, in points."""

COLOURS = {
    "paper": "FBFAF5", "tint": "EFECE0", "line": "BDB9AB", "ink": "20242E", "soft": "555B68", "accent": "0B5563",
    "urgent": "76204B",
}  # fmt: skip
"""Those of the guide's pages by light (theme/stylesheets/tokens.css)."""

# Installed, or replaced by one of the same widths, wherever slides are shown.
TYPEFACE = "Arial"

_LEFT, _WIDE = 48.0, 864.0
_TITLE = Box(_LEFT, 34, _WIDE, 70)
_BODY = Box(_LEFT, 116, _WIDE, 320)
_HALF = Box(_LEFT, 116, 424, 320)
_PICTURE = Box(496, 116, 416, 320)
_TALL = Box(496, 22, 424, 470)
# As wide as its letters are set for, the smallest of them 18 points.
_WHOLE = Box(40, 112, 880, 376)
MARK = Box(_LEFT, 502, 700, 24)
NUMBER = Box(812, 502, 100, 24)

ROOMS: Mapping[Layout, Room] = {
    "Opening": Room(Box(_LEFT, 120, _WIDE, 140), Box(_LEFT, 292, _WIDE, 144), None, (40, 46)),
    "Text": Room(_TITLE, _BODY),
    "Text with plot": Room(Box(_LEFT, 34, 424, 70), _HALF, _TALL, references=Box(_LEFT, 444, 424, 46)),
    "Plot": Room(_TITLE, _WHOLE, _WHOLE),
    "Frame to fill": Room(_TITLE, _HALF, _PICTURE),
}

NAMESPACES = (
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships" '
    'xmlns:p="http://schemas.openxmlformats.org/presentationml/2006/main"'
)
GROUP = (
    '<p:nvGrpSpPr><p:cNvPr id="1" name=""/><p:cNvGrpSpPr/><p:nvPr/></p:nvGrpSpPr><p:grpSpPr><a:xfrm>'
    '<a:off x="0" y="0"/><a:ext cx="0" cy="0"/><a:chOff x="0" y="0"/><a:chExt cx="0" cy="0"/></a:xfrm></p:grpSpPr>'
)
_MAIN = "application/vnd.openxmlformats-officedocument.presentationml."


def frame(box: Box) -> str:
    """Where a shape stands."""
    left, top, width, height = (round(number * POINT) for number in box)
    return f'<a:xfrm><a:off x="{left}" y="{top}"/><a:ext cx="{width}" cy="{height}"/></a:xfrm>'


FIELD = "{B6F15528-21DE-4FAA-801E-634DDDAF4B2B}"
"""Id of the field that is the number of a slide."""

NO_MARGIN = '<a:bodyPr wrap="square" lIns="0" tIns="0" rIns="0" bIns="0"><a:noAutofit/></a:bodyPr>'
_TO_THE_FOOT = '<a:bodyPr wrap="square" lIns="0" tIns="0" rIns="0" bIns="0" anchor="b"><a:noAutofit/></a:bodyPr>'


def _placeholder(number: int, name: str, kind: str, box: Box, body: str, prompt: str, style: str = "") -> str:
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{number}" name="{name}"/><p:cNvSpPr><a:spLocks noGrp="1"/></p:cNvSpPr>'
        f"<p:nvPr><p:ph {kind}/></p:nvPr></p:nvSpPr><p:spPr>{frame(box)}"
        f'<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></p:spPr><p:txBody>{body}<a:lstStyle>{style}</a:lstStyle>'
        f"<a:p>{prompt}</a:p></p:txBody></p:sp>"
    )


def _text(words: str) -> str:
    return f'<a:r><a:rPr lang="en-GB"/><a:t>{words}</a:t></a:r>'


def _level(size: int, colour: str, rest: str = "") -> str:
    return (
        f'<a:lvl1pPr marL="0" indent="0"><a:buNone/><a:defRPr sz="{size}00"{rest}><a:solidFill>'
        f'<a:schemeClr val="{colour}"/></a:solidFill></a:defRPr></a:lvl1pPr>'
    )


def _bar(number: int, name: str, box: Box, colour: str) -> str:
    return (
        f'<p:sp><p:nvSpPr><p:cNvPr id="{number}" name="{name}"/><p:cNvSpPr/><p:nvPr userDrawn="1"/></p:nvSpPr><p:spPr>'
        f'{frame(box)}<a:prstGeom prst="rect"><a:avLst/></a:prstGeom><a:solidFill><a:schemeClr val="{colour}"/>'
        "</a:solidFill><a:ln><a:noFill/></a:ln></p:spPr></p:sp>"
    )


def _footer(references: Box) -> str:
    """References, mark and number, at the same place on every slide."""
    number = f'<a:fld id="{FIELD}" type="slidenum"><a:rPr lang="en-GB"/><a:t>‹#›</a:t></a:fld>'
    fill = '<a:solidFill><a:schemeClr val="tx2"/></a:solidFill>'
    right = f'<a:lvl1pPr algn="r"><a:defRPr sz="1800">{fill}</a:defRPr></a:lvl1pPr>'
    return (
        _placeholder(20, "References", 'type="body" sz="quarter" idx="14"', references, _TO_THE_FOOT,
                     _text("References"), _level(18, "tx2"))
        + _placeholder(21, "Mark", 'type="body" sz="quarter" idx="15"', MARK, NO_MARGIN, _text("Mark"),
                       _level(18, "tx2", ' i="1"'))
        + _placeholder(22, "Number", 'type="sldNum" sz="quarter" idx="12"', NUMBER, NO_MARGIN, number, right)
    )  # fmt: skip


def _layout(name: Layout, room: Room) -> str:
    title_style = f'<a:lvl1pPr><a:defRPr sz="{room.title_size[0]}00"/></a:lvl1pPr>'
    # The long title of the first slide stands on its bar, all others below theirs.
    is_first = name == "Opening"
    below = room.title.top + room.title.height + 12
    bar = Box(room.title.left, below if is_first else room.title.top - 12, 72, 4)
    shapes = [
        _bar(30, "Bar", bar, "tx1"),
        _bar(31, "Rule", Box(_LEFT, 495, _WIDE, 1), "accent3"),
        _placeholder(
            2, "Title", 'type="title"', room.title, _TO_THE_FOOT if is_first else NO_MARGIN, _text("Title"), title_style
        ),
    ]
    if name != "Plot":
        shapes.append(_placeholder(3, "Text", 'type="body" idx="1"', room.body, NO_MARGIN, _text("Text")))
    if room.picture is not None:
        shapes.append(_placeholder(4, "Picture", 'type="pic" idx="13"', room.picture, NO_MARGIN, _text("Picture")))
    return (
        f'<p:sldLayout {NAMESPACES} preserve="1" userDrawn="1"><p:cSld name="{name}"><p:spTree>{GROUP}'
        f"{''.join(shapes)}{_footer(room.references)}</p:spTree></p:cSld><p:clrMapOvr><a:masterClrMapping/></p:clrMapOvr></p:sldLayout>"
    )


def _style(name: str, size: int, rest: str) -> str:
    level = (
        f'<a:defRPr sz="{size}00"{rest} kern="1200"><a:solidFill><a:schemeClr val="tx1"/></a:solidFill>'
        '<a:latin typeface="+mn-lt"/><a:ea typeface="+mn-ea"/><a:cs typeface="+mn-cs"/></a:defRPr>'
    )
    return f'<p:{name}><a:lvl1pPr marL="0" indent="0" algn="l"><a:buNone/>{level}</a:lvl1pPr></p:{name}>'


def _master(layouts: list[str]) -> str:
    shapes = (
        _placeholder(2, "Title", 'type="title"', _TITLE, NO_MARGIN, _text("Title"))
        + _placeholder(3, "Text", 'type="body" idx="1"', _BODY, NO_MARGIN, _text("Text"))
        + _placeholder(4, "Number", 'type="sldNum" sz="quarter" idx="4"', NUMBER, NO_MARGIN, "")
    )
    bold = ' b="1"'
    listed = "".join(f'<p:sldLayoutId id="{2147483649 + index}" r:id="{name}"/>' for index, name in enumerate(layouts))
    return (
        f'<p:sldMaster {NAMESPACES}><p:cSld><p:bg><p:bgPr><a:solidFill><a:schemeClr val="bg1"/></a:solidFill>'
        f"<a:effectLst/></p:bgPr></p:bg><p:spTree>{GROUP}{shapes}</p:spTree></p:cSld>{_COLOUR_MAP}"
        f"<p:sldLayoutIdLst>{listed}</p:sldLayoutIdLst><p:txStyles>{_style('titleStyle', 28, bold)}"
        f"{_style('bodyStyle', 20, '')}{_style('otherStyle', 18, '')}</p:txStyles></p:sldMaster>"
    )


_COLOUR_MAP = (
    '<p:clrMap bg1="lt1" tx1="dk1" bg2="lt2" tx2="dk2" accent1="accent1" accent2="accent2" accent3="accent3" '
    'accent4="accent4" accent5="accent5" accent6="accent6" hlink="hlink" folHlink="folHlink"/>'
)


def _theme() -> str:
    names = {
        "dk1": "ink", "lt1": "paper", "dk2": "soft", "lt2": "tint", "accent1": "accent", "accent2": "urgent",
        "accent3": "line", "accent4": "soft", "accent5": "ink", "accent6": "tint", "hlink": "accent",
        "folHlink": "soft",
    }  # fmt: skip
    colours = "".join(f'<a:{name}><a:srgbClr val="{COLOURS[of]}"/></a:{name}>' for name, of in names.items())
    fonts = "".join(
        f'<a:{part}><a:latin typeface="{TYPEFACE}"/><a:ea typeface=""/><a:cs typeface=""/></a:{part}>'
        for part in ("majorFont", "minorFont")
    )
    fill = '<a:solidFill><a:schemeClr val="phClr"/></a:solidFill>'
    edge = f'<a:ln w="12700">{fill}<a:prstDash val="solid"/></a:ln>'
    effect = "<a:effectStyle><a:effectLst/></a:effectStyle>"
    return (
        '<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" name="Guide"><a:themeElements>'
        f'<a:clrScheme name="Guide">{colours}</a:clrScheme><a:fontScheme name="Guide">{fonts}</a:fontScheme>'
        f'<a:fmtScheme name="Guide"><a:fillStyleLst>{fill * 3}</a:fillStyleLst><a:lnStyleLst>{edge * 3}</a:lnStyleLst>'
        f"<a:effectStyleLst>{effect * 3}</a:effectStyleLst><a:bgFillStyleLst>{fill * 3}"
        "</a:bgFillStyleLst></a:fmtScheme>"
        "</a:themeElements></a:theme>"
    )


def _notes_master() -> str:
    """The page of a slide's notes: the slide above, the notes below it."""
    picture = (
        '<p:sp><p:nvSpPr><p:cNvPr id="2" name="Slide"/><p:cNvSpPr><a:spLocks noGrp="1" noRot="1" noChangeAspect="1"/>'
        '</p:cNvSpPr><p:nvPr><p:ph type="sldImg" idx="2"/></p:nvPr></p:nvSpPr>'
        f'<p:spPr>{frame(Box(54, 54, 432, 243))}<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></p:spPr></p:sp>'
    )
    notes = _placeholder(
        3, "Notes", 'type="body" sz="quarter" idx="1"', Box(54, 315, 432, 420), NO_MARGIN, _text("Notes")
    )
    level = (
        '<a:lvl1pPr marL="0" algn="l"><a:defRPr sz="1200"><a:solidFill><a:schemeClr val="tx1"/></a:solidFill>'
        '<a:latin typeface="+mn-lt"/></a:defRPr></a:lvl1pPr>'
    )
    return (
        f'<p:notesMaster {NAMESPACES}><p:cSld><p:bg><p:bgPr><a:solidFill><a:schemeClr val="bg1"/></a:solidFill>'
        f"<a:effectLst/></p:bgPr></p:bg><p:spTree>{GROUP}{picture}{notes}</p:spTree></p:cSld>{_COLOUR_MAP}"
        f"<p:notesStyle>{level}</p:notesStyle></p:notesMaster>"
    )


PRESENTATION = "ppt/presentation.xml"
NOTES_MASTER = "ppt/notesMasters/notesMaster1.xml"


def add_notes_master(package: Package) -> None:
    """Adds the master of notes pages, where a template has none."""
    package.add("ppt/theme/themeOfNotes.xml", _theme(), "application/vnd.openxmlformats-officedocument.theme+xml")
    package.add(NOTES_MASTER, _notes_master(), f"{_MAIN}notesMaster+xml")
    package.relate(NOTES_MASTER, "theme", "ppt/theme/themeOfNotes.xml")
    package.relate(PRESENTATION, "notesMaster", NOTES_MASTER)


def own_template() -> Package:
    """A presentation without a slide; whoever writes slides writes its list."""
    package = Package()
    master = "ppt/slideMasters/slideMaster1.xml"
    theme = "ppt/theme/theme1.xml"
    package.add(PRESENTATION, f"<p:presentation {NAMESPACES}/>", f"{_MAIN}presentation.main+xml")
    package.relate("", "officeDocument", PRESENTATION)
    package.relate(PRESENTATION, "slideMaster", master)
    package.relate(PRESENTATION, "theme", theme)
    package.add(theme, _theme(), "application/vnd.openxmlformats-officedocument.theme+xml")
    names = []
    for number, (name, room) in enumerate(ROOMS.items(), start=1):
        part = f"ppt/slideLayouts/slideLayout{number}.xml"
        package.add(part, _layout(name, room), f"{_MAIN}slideLayout+xml")
        package.relate(part, "slideMaster", master)
        names.append(package.relate(master, "slideLayout", part))
    package.relate(master, "theme", theme)
    package.add(master, _master(names), f"{_MAIN}slideMaster+xml")
    add_notes_master(package)
    return package

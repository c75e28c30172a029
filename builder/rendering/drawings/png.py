"""A drawing as a picture of pixels, for programs that take no SVG."""

from __future__ import annotations

from functools import lru_cache

_DOCUMENT = b"""#set page(width: auto, height: auto, margin: 0pt, fill: none)
#set text(font: "Libertinus Serif")
#image(bytes(sys.inputs.svg), width: float(sys.inputs.width) * 0.5pt, format: "svg")
"""
# A pixel is half a point.
_PIXELS_AN_INCH = 144.0


def png(svg: str, width: int) -> bytes:
    """The drawing, as many pixels wide; what it does not paint is transparent. The same bytes for the same drawing.

    svg: set in the face `PRINT`, since no font of the machine is looked at. Raises RuntimeError where it is no SVG.
    """
    made = compiler().compile(
        _DOCUMENT, format="png", ppi=_PIXELS_AN_INCH, sys_inputs={"svg": svg, "width": str(width)}
    )
    assert isinstance(made, bytes), "a document of one page is one picture"
    return made


@lru_cache(maxsize=1)
def compiler():  # type: ignore[no-untyped-def]
    """What sets and draws, with the fonts that it brings along alone."""
    # Here and not above: whoever makes no picture waits for nothing.
    import typst

    return typst.Compiler(font_paths=typst.Fonts(include_system_fonts=False))

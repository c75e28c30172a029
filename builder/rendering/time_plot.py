"""Rates over time: share still good upwards, time across, and below the axis what belongs to no stated time.

Places across are shares of the width, so that the drawing fills any screen with its text at one size.
"""

from __future__ import annotations

from html import escape

from ..results.values.drawings import TimePlot, TimePoint, TimeSpan, TimeSteps
from .drawn_text import figure_box, line_svg
from .faces import SCREEN, Face
from .inline import Place, line_html

_LEFT, _RIGHT = 11.0, 99.0
_TOP, _BOTTOM = 10.0, 160.0
# So much higher stands what is drawn where no mark needs the scale of shares.
_BARE = 125.0


def time_plot_html(plot: TimePlot, place: Place, mark: str) -> str:
    """The drawing with how its marks are read."""
    return figure_box(plot.anchor, time_plot_svg(plot, place, mark), line_html(plot.finding, place))


def time_plot_svg(plot: TimePlot, place: Place, mark: str) -> str:
    """The drawing with title and description; it holds links, so it is heard as a group and not as one picture."""
    drawn, height = time_plot_inside(plot, place, mark)
    return (
        f'<svg height="{height:g}" role="group" aria-labelledby="{plot.anchor}-title" '
        f'aria-describedby="{plot.anchor}-says">\n<title id="{plot.anchor}-title">{escape(plot.title)}</title>\n'
        f"{drawn}\n</svg>"
    )


def time_plot_inside(plot: TimePlot, place: Place | None, mark: str, face: Face = SCREEN) -> tuple[str, float]:
    """What stands in the drawing, and how high it is. place: as for `line_svg`."""
    out = [_frame(plot)]
    out.extend(_steps(plot, steps) for steps in plot.steps)
    out.extend(_bracket(plot, index, place, face) for index in range(len(plot.brackets)))
    times = [*(bracket.at for bracket in plot.brackets), *(point.at for point in plot.points)]
    out.extend(
        _point(plot, point, times[: len(plot.brackets) + index].count(point.at))
        for index, point in enumerate(plot.points)
    )
    height = _BOTTOM + 40
    if any(steps.followed for steps in plot.steps):
        for steps in plot.steps:
            if len(plot.steps) > 1:
                out.append(_words(0, height + 12, f"still followed, {steps.name}"))
                height += 16
            out.append(_followed(plot, steps, place, height, face, is_named=len(plot.steps) > 1))
            height += 18
    if plot.spans:
        out.append(_words(0, height + 14, "Last seen, at no stated time"))
        height += 22
        for span in plot.spans:
            out.append(_span(plot, span, place, height, face))
            height += 28
    if mark:
        out.append(f'<text class="invented" x="0" y="{height + 12:g}">{escape(mark)}</text>')
        height += 16
    inside = "\n".join(out)
    if not plot.known_to:
        return f'<g transform="translate(0 {-_BARE:g})">{inside}</g>', height - _BARE
    return inside, height


def _at(plot: TimePlot, months: float) -> float:
    return _LEFT + (_RIGHT - _LEFT) * min(1.0, max(0.0, months / plot.last))


def _x(plot: TimePlot, months: float) -> str:
    return _percent(_at(plot, months))


def _percent(share: float) -> str:
    return f"{share:.1f}".removesuffix(".0") + "%"


def _y(share: float) -> str:
    return f"{_TOP + (_BOTTOM - _TOP) * (100 - min(100.0, max(0.0, share))) / 100:g}"


def _line(x1: str, y1: str, x2: str, y2: str, kind: str = "") -> str:
    named = f' class="{kind}"' if kind else ""
    return f'<line{named} x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"/>'


def _frame(plot: TimePlot) -> str:
    """The scales; lines of equal shares end where the knowledge ends, and behind it the field is shaded and says so.

    Where nothing has a stated time there is no share to be read, and the scale of time stands alone.
    """
    left, right, known = _percent(_LEFT), _percent(_RIGHT), _x(plot, plot.known_to)
    out: list[str] = []
    if plot.known_to:
        wide = _percent(_RIGHT - _at(plot, plot.known_to))
        out.append(f'<rect class="unknown" x="{known}" y="{_TOP:g}" width="{wide}" height="{_BOTTOM - _TOP:g}"/>')
        out.extend(_line(left, _y(share), known, _y(share), "axis") for share in (100, 50))
        out.extend(f'<text class="scale" x="0" y="{float(_y(share)) + 4:g}">{share}%</text>' for share in (100, 50, 0))
    out.append(_line(left, _y(0), right, _y(0), "axis"))
    for at, label in plot.ticks:
        anchor = "end" if at >= plot.last else "middle"
        out.append(f'<text class="scale" x="{_x(plot, at)}" y="{_BOTTOM + 16:g}" text-anchor="{anchor}">{label}</text>')
    out.append(f'<text class="scale" x="{left}" y="{_BOTTOM + 33:g}">{escape(plot.axis)}</text>')
    middle = (_at(plot, plot.known_to) + _RIGHT) / 2
    out.append(f'<text class="scale" x="{_percent(middle)}" y="{_y(6)}" text-anchor="middle">nothing known</text>')
    return "".join(out)


# How far marks of one time stand from each other, in pixels: they are of different people and hide none.
_ASIDE = 11


def _point(plot: TimePlot, point: TimePoint, before: int = 0) -> str:
    """before: how many marks of the same time stand there already."""
    at, interval = _x(plot, point.at), ""
    x = f"{-_ASIDE * before}" if before else at
    if point.low is not None and point.high is not None:
        interval = _line(x, _y(point.low), x, _y(point.high))
    drawn = f'{interval}<circle cx="{x}" cy="{_y(point.share)}" r="4"/>'
    return f'<svg x="{at}">{drawn}</svg>' if before else drawn


def _bracket(plot: TimePlot, index: int, place: Place | None, face: Face) -> str:
    """A bracket from the lowest to the highest share; its words stand below all that lies near it."""
    bracket = plot.brackets[index]
    alike = [other for other in plot.brackets if other.at == bracket.at]
    before = sum(other.at == bracket.at for other in plot.brackets[:index])
    low, high = float(_y(bracket.low)) + 3, float(_y(bracket.high)) - 3
    is_before = _at(plot, bracket.at) > 70
    out = -6 if is_before else 6
    marks = [*plot.points, *(point for steps in plot.steps for point in steps.points)]
    near = [point for point in marks if abs(_at(plot, point.at) - _at(plot, bracket.at)) < _NEAR]
    lowest = min(
        [*(other.low for other in alike), *(point.share if point.low is None else point.low for point in near)]
    )
    said = line_svg(bracket.label, place, 0, float(_y(lowest)) + 17 * (before + 1), is_before=is_before, face=face)
    x = -_ASIDE * before
    drawn = f'<path class="beyond" d="M{x + out} {high:g}H{x}V{low:g}H{x + out}"/>'
    if plot.opens and place is not None:
        # As wide as a fingertip, and not to be seen.
        touched = f'<circle cy="{(low + high) / 2:g}" r="22" opacity="0"/>'
        drawn = f'<a href="#{escape(plot.opens)}" aria-label="Every study at this time">{touched}{drawn}</a>'
    return f'<svg x="{_x(plot, bracket.at)}">{drawn}{said}</svg>'


# As wide as the words beside a bracket, in per cent of the narrowest drawing.
_NEAR = 30


def _steps(plot: TimePlot, steps: TimeSteps) -> str:
    """From each known share to the next a box, somewhere in which it fell; broken below ten still followed."""
    out: list[str] = []
    at, share = 0.0, 100.0
    for index, point in enumerate(steps.points):
        left, top = _at(plot, at), float(_y(max(share, point.share)))
        width, height = _at(plot, point.at) - left, float(_y(min(share, point.share))) - top
        kind = "same broken" if index >= steps.thin_from else "same"
        out.append(
            f'<rect class="{kind}" x="{_percent(left)}" y="{top:g}" width="{_percent(width)}" height="{height:g}"/>'
        )
        at, share = point.at, point.share
    out.extend(_point(plot, point) for point in steps.points)
    is_before = _at(plot, at) > 70
    side, anchor = (-8, "end") if is_before else (8, "start")
    return "".join(out) + (
        f'<svg x="{_x(plot, at)}"><text x="{side}" y="{float(_y(share)) + (18 if is_before else 4):g}" '
        f'text-anchor="{anchor}">{escape(steps.name)}</text></svg>'
    )


def _followed(plot: TimePlot, steps: TimeSteps, place: Place | None, y: float, face: Face, *, is_named: bool) -> str:
    """How many were still followed, below the times."""
    out = []
    for at, told in steps.followed:
        number = line_svg(told, place, 0 if at == 0 else 8, y + 12, is_before=at > 0, face=face)
        out.append(f'<svg x="{_x(plot, at)}">{number}</svg>')
    after = max((at for at, _ in steps.followed), default=0.0)
    if not is_named and steps.followed:
        out.append(f'<svg x="{_x(plot, after)}">{_words(14, y + 12, "followed")}</svg>')
    return "".join(out)


def _words(x: float, y: float, text: str) -> str:
    return f'<text class="scale" x="{x:g}" y="{y:g}">{escape(text)}</text>'


def _span(plot: TimePlot, span: TimeSpan, place: Place | None, y: float, face: Face) -> str:
    """From the first to the last time when somebody was seen, a dot at the middle one, below its words."""
    at = f"{y + 20:g}"
    out = _line(_x(plot, span.low), at, _x(plot, max(span.high, span.low + plot.last / 60)), at)
    if span.middle is not None:
        out += f'<circle cx="{_x(plot, span.middle)}" cy="{at}" r="4"/>'
    return f'<svg x="{_percent(_LEFT)}">{line_svg(span.label, place, 0, y + 10, face=face)}</svg>{out}'

"""One row a study of a comparison, on scales that the whole page shares; without a comparison a rate by itself."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from ...audit.tables import in_percent
from ...reading.contrasts import RATIOS
from ...reading.model import Question
from ...records import NamedTuple
from ...results.findings.comparable import people_of
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue, Finding
from ...results.findings.margins import margin_places
from ...results.findings.side import Side
from ...results.findings.which_way import share_good
from ...results.numbers.clearness import clearness, counts_of_both
from ...results.numbers.mean_differences import mean_difference_of
from ...results.saying.event_words import ends_of
from ...results.saying.labels import without_digits
from ...results.saying.measured import in_many
from ...results.saying.short_words import row_timing, short_counts
from ...results.saying.source_reference import source_link
from ...results.values.document import Block, Blocks, Paragraph, StudyRow, StudyRows
from ...results.values.drawings import StudyScale
from ...results.values.figures import Figure
from ...results.values.line import Line, joined, line, typed
from ...synthesis.contrast import newcombe_interval
from .compared_levels import compared_title, comparisons, level_title, reference_words
from .one_study import level_wording

Values = tuple[float | None, float | None, float | None]
"""A point and the ends of its interval."""


class Drawn(NamedTuple):
    """Where a study lies on which scale; values in points of a hundred, as a ratio, or in what was measured."""

    scale: str
    """points, ratio, or the unit of a measured difference with "in " before it; "" where nothing can be drawn."""
    ends: tuple[str, str]
    about: str
    """What was counted: the words that the ends speak of."""
    point: float | None = None
    low: float | None = None
    high: float | None = None
    margins: tuple[float, ...] = ()
    """Where a margin fixed beforehand lies, one-sided or on both sides."""


class SideRow(NamedTuple):
    """One side with what its row says of it and opens."""

    side: Side
    said: Line
    opened: Blocks
    is_counted: bool = True
    """False for one that gave way to another row of the same patients: it stands below those that count."""


NOTHING = Drawn("", ("", ""), "")


def drawn_side(side: Side, place: str) -> Drawn:
    """The difference of a level and its reference, or their ratio, with the ends of its 95% interval.

    place: as for `clearness`. Left is always fewer of the event, right more.
    """
    finding = side.finding
    less, more, about = ends_of(finding)
    if side.direction == "not stated":
        return NOTHING
    printed = side.ratio if side.ratio is not None and margin_places(side.ratio) else finding
    if printed.kind == "contrast":
        # What was held against a margin is drawn as it was printed, and not as it is reckoned from the counts.
        return _of_contrast(printed, (less, more), about)
    if finding.kind == "measured":
        return _of_means(side, place, (less, more), about)
    table = counts_of_both(side)
    if table is not None:
        low, high = newcombe_interval(table)
        point = table.events / table.total - table.reference_events / table.reference_total
        return Drawn("points", (less, more), about, 100 * point, 100 * low, 100 * high)
    own, other = share_good(finding), share_good(side.reference) if side.reference is not None else None
    if own is None or other is None:
        return NOTHING
    apart = float(own - other)
    return Drawn("points", (less, more), about, apart if finding.outcome.good else -apart)


def _of_contrast(finding: Finding, ends: tuple[str, str], about: str) -> Drawn:
    item, value = finding.contrast, finding.figure("contrast/value")
    if item is None or value is None:
        return NOTHING
    margins = margin_places(finding)
    limits: tuple[Figure | None, ...] = finding.limits("contrast/interval") or ()
    if margins:
        limits = (finding.figure("contrast/interval/low"), finding.figure("contrast/interval/high"))
    numbers = [float(figure.number) for figure in (value, *limits) if figure is not None]
    held = [float(number) for number in margins]
    measure = item.measure.text
    scale, factor = "", 1
    if measure in RATIOS and min(numbers) > 0:
        scale = "ratio"
    elif measure == "risk difference":
        is_in_points = in_percent(item) or value.unit == "%" or value.text.rstrip().endswith("%")
        scale, factor = "points", 1 if is_in_points else 100
    elif measure == "mean difference":
        scale = f"in {getattr(item.unit or finding.claim.unit, 'text', '')}"
    if not scale:
        return NOTHING
    point, low, high = (*(factor * number for number in numbers), None, None)[:3]
    return Drawn(scale, ends, about, point, low, high, tuple(factor * number for number in held))


def _of_means(side: Side, place: str, ends: tuple[str, str], about: str) -> Drawn:
    found = mean_difference_of(side.finding, side.reference, place)
    numbers = [float(figure.number) for figure in (found.estimate, found.low, found.high) if figure is not None]
    unit = getattr(side.finding.claim.unit, "text", "")
    point, low, high = (*numbers, None, None, None)[:3]
    return Drawn(f"in {unit}", ends, about, point, low, high) if numbers else NOTHING


def comparison_rows(
    catalogue: Catalogue,
    question: Question,
    item: Compared,
    found: Iterable[SideRow],
    below: tuple[StudyRow, ...],
) -> list[Block]:
    """One list for each scale and event, that with most studies first; in each the most exact study first.

    below: rows of what counts nowhere, which end the last list.
    """
    groups: dict[tuple[str, tuple[str, str], str], list[tuple[SideRow, Drawn]]] = {}
    for row in found:
        drawn = drawn_side(row.side, f"{question.id}/{item.factor}")
        groups.setdefault((drawn.scale, drawn.ends, drawn.about), []).append((row, drawn))
    if len(groups) > 1 and NOTHING[:3] in groups:
        # What cannot be drawn stands below what can.
        rest = groups.pop(NOTHING[:3])
        groups[next(iter(groups))].extend(rest)
    title = without_digits(compared_title(catalogue, item))
    by_size = sorted(groups.items(), key=lambda group: -sum(row.is_counted for row, _ in group[1]))
    out: list[StudyRows] = []
    for index, ((kind, ends, about), rows) in enumerate(by_size):
        ordered = sorted(rows, key=lambda pair: (not pair[0].is_counted, *_exactness(pair[1], pair[0].side)))
        scale = _scale(catalogue, question, item.factor, kind, ends) if kind else None
        label = f"Studies of {title}{', again' * index}"
        made = tuple(_row(catalogue, question, row, drawn) for row, drawn in ordered)
        out.append(StudyRows(_caption(catalogue, item, kind, about), label, made, scale))
    if below and out:
        out[-1] = out[-1]._replace(rows=(*out[-1].rows, *below))
    return list(out)


def _exactness(drawn: Drawn, side: Side) -> tuple[float, float, str]:
    return exactness(drawn[3:6], side.units, side.finding.base, is_ratio=drawn.scale == "ratio")


def exactness(values: Values, units: int | None, base: str, *, is_ratio: bool = False) -> tuple[float, float, str]:
    """What rows are sorted by: the width of the interval, then the number of units, the larger first, then place."""
    _, low, high = values
    width = math.inf
    if low is not None and high is not None:
        width = math.log(high / low) if is_ratio else high - low
    return (width, -(units or 0), base)


SHARES = StudyScale(0.0, 100.0, tuple((float(at), str(at)) for at in (0, 25, 50, 75, 100)), "per cent")
"""The scale of rates by themselves."""


def drawn_rate(finding: Finding) -> Values:
    """A rate or estimate with its 95% limits in per cent, as printed, else Wilson's; None for what is not known."""
    from ...synthesis import wilson_interval

    if finding.kind == "estimate":
        printed, limits = finding.figure("estimate/value"), finding.limits("estimate/interval")
        value = float(printed.number) if printed is not None else None
        return (value, float(limits[0].number), float(limits[1].number)) if limits else (value, None, None)
    if finding.events is None or not finding.total or finding.events > finding.total:
        return None, None, None
    limits = finding.limits()
    share = 100 * finding.events / finding.total
    if limits is not None:
        return share, float(limits[0].number), float(limits[1].number)
    found = wilson_interval(finding.events, finding.total)
    return share, 100 * found.low, 100 * found.high


def _caption(catalogue: Catalogue, item: Compared, kind: str, about: str) -> Line:
    counted = line(": ", typed(level_title(catalogue, item), "definition"), " | ", reference_words(item))
    what = typed(about or item.outcome.title.text, "definition")
    return line(what, ", as a ratio" if kind == "ratio" else None, counted)


def _row(catalogue: Catalogue, question: Question, row: SideRow, drawn: Drawn) -> StudyRow:
    side, finding = row.side, row.side.finding
    # An adjusted ratio that gives way does so because it decides nothing; another row that does is only told again.
    decides = not side.is_adjusted
    if row.is_counted:
        decides = clearness(side, f"{question.id}/{finding.factor}").is_clear is not None
    return StudyRow(
        name=row_name(catalogue, finding.key),
        first=joined([part for part in (row_timing(finding), short_counts(finding, side.reference)) if part], " · "),
        said=joined([row.said, *row_marks(side, is_counted=row.is_counted)], ", "),
        opened=row.opened,
        point=drawn.point,
        low=drawn.low,
        high=drawn.high,
        shape="filled" if side.is_adjusted else "open",
        is_broken=not decides,
        margins=drawn.margins,
        of=" ".join(side.covers),
    )


def told(rows: Iterable[tuple[str, Line]]) -> Blocks:
    """What a row opens: each thing that is told of it by its name, a paragraph each."""
    return tuple(Paragraph(line(f"{name}: ", said)) for name, said in rows)


def whole_name(catalogue: Catalogue, key: str) -> str:
    """A report by first author and year alone."""
    first = source_link(key, catalogue).line[0]
    return first if isinstance(first, str) else getattr(first, "text", key)


# Letters that have room beside the counts of a row on a narrow phone.
_NAME_AT_MOST, _BODY_AT_MOST = 26, 12


def row_name(catalogue: Catalogue, key: str) -> str:
    """The same for a row; of a body with a long name its first words: what the row opens has all of it."""
    name = whole_name(catalogue, key)
    if len(name) <= _NAME_AT_MOST:
        return name
    body, _, year = name.rpartition(" ")
    kept = body[: _BODY_AT_MOST + 1].rpartition(" ")[0] or body.split()[0]
    return f"{kept} … {year}"


def row_marks(side: Side, *, is_counted: bool = True) -> list[Line]:
    """What is to be known of a row before it is opened. is_counted: False where its words name the estimate."""
    finding = side.finding
    out: list[Line] = []
    if side.is_adjusted and is_counted:
        out.append(line("adjusted"))
    if finding.claim.differ_in:
        out.append(line("groups differed at the start"))
    if is_of_several(finding):
        out.append(line(SEVERAL_TOGETHER))
    if finding.claim.cut is not None and finding.claim.cut.text == "chosen from the data":
        out.append(line("cut chosen from the data"))
    if side.reaches_over:
        out.append(line(typed(level_wording(finding), "definition"), ": over two levels, counts in neither"))
    out.extend(line(word) for word in standing_marks(finding))
    return out


SEVERAL_TOGETHER = "several studies taken together"


def is_of_several(finding: Finding) -> bool:
    """True of one report's numbers that add up the people of several of its studies."""
    return len(people_of(finding)) > 1 and finding.kind not in ("pooled", "words")


def standing_marks(finding: Finding) -> list[str]:
    """The same of the report of one finding."""
    return report_marks(finding.standing, finding.report.read.depth.text)


def report_marks(standing: str, depth: str) -> list[str]:
    """Corrected, of concern; how much of the report was read."""
    out = {"corrected": ["report corrected"], "concern": ["report under concern"]}.get(standing, [])
    read = {"full text": [], "part": ["read in part"], "secondary": ["read in another report"]}
    return [*out, *read.get(depth, [f"{depth} only"])]


_STEPS = (5, 10, 25, 50, 100)
# The shorter side of no difference beside the longer one, at the least: the words for that side have their room there.
_LEAST_SHARE = 0.65
# The powers of two from which the ends of a scale of ratios are taken, and the steps between its ticks, by their names.
_ENDS_OF_RATIOS = tuple(2.0**power for power in range(-7, 8))
_RATIO_STEPS = {2: "each step doubles it", 4: "each step is four times", 16: "each step is sixteen times"}
# Of the width of the drawing on a narrow phone: a stop, a letter, a digit or sign, and the blank between two labels.
_STOP, _LETTER, _DIGIT, _BLANK = 0.025, 0.054, 0.046, 0.025


def _scale(catalogue: Catalogue, question: Question, factor: str, kind: str, ends: tuple[str, str]) -> StudyScale:
    """The scale of this kind for all comparisons of the factor's page."""
    place = f"{question.id}/{factor}"
    every = [
        drawn_side(side, place)
        for other in comparisons(catalogue, question, factor)
        for side in (*other.every, *other.elsewhere)
        if side in other.sides or side in other.reaching or side.is_adjusted or side.finding.kind != "contrast"
    ]
    values = [
        value for drawn in every if drawn.scale == kind
        for value in (drawn.point, drawn.low, drawn.high, *drawn.margins)
        if value is not None
    ]  # fmt: skip
    if kind == "ratio":
        return ratio_scale(values, ends)
    return _even_scale(values, kind, _axis(catalogue, kind), ends)


def _axis(catalogue: Catalogue, kind: str) -> str:
    """What a scale of differences counts: "points of a hundred", or the unit that was measured in."""
    if kind == "points":
        return "points of a hundred"
    unit = kind.removeprefix("in ")
    if unit in catalogue.units:
        return catalogue.units[unit].many
    return without_digits(in_many(unit))


def ratio_scale(values: Iterable[float], ends: tuple[str, str]) -> StudyScale:
    """A log scale around one."""
    known = list(values)
    smallest, largest = _ENDS_OF_RATIOS[0], _ENDS_OF_RATIOS[-1]
    low, high = max(min([*known, 0.5]), smallest), min(max([*known, 2.0]), largest)
    # No difference never lies at an end, where the words for that side would have no room.
    low, high = min(low, high**-_LEAST_SHARE), max(high, low**-_LEAST_SHARE)
    first = max((end for end in _ENDS_OF_RATIOS if end <= low * (1 + 1e-9)), default=smallest)
    last = min((end for end in _ENDS_OF_RATIOS if end >= high * (1 - 1e-9)), default=largest)
    scale = StudyScale(first, last, (), "", 1.0, ends, True)
    for times, said in _RATIO_STEPS.items():
        inside = [float(times) ** power for power in range(-7, 8) if first <= float(times) ** power <= last]
        ticks = _apart([(tick, f"{tick:g}") for tick in inside], scale)
        if ticks:
            return scale._replace(ticks=ticks, axis=f"ratio; {said}")
    return scale._replace(axis="ratio")


def _even_scale(values: Sequence[float], kind: str, axis: str, ends: tuple[str, str]) -> StudyScale:
    """Equal steps to both sides of no difference, no further than somebody lies."""
    least, most = min([*values, 0.0]), max([*values, 0.0])
    least, most = min(least, -_LEAST_SHARE * most), max(most, -_LEAST_SHARE * least)
    step = next((size for size in _STEPS if (most - least) / size <= 4), _STEPS[-1])
    if kind == "points":
        step = max(step, 10)
    low, high = step * min(math.floor(least / step), -1), step * max(math.ceil(most / step), 1)
    scale = StudyScale(low, high, (), axis, 0.0, ends)
    for between in (step, *(size for size in _STEPS if size > step)):
        inside = [at for at in range(low, high + 1) if at % between == 0]
        ticks = _apart([(float(at), f"{at:+d}".replace("-", "−") if at else "same") for at in inside], scale)
        if ticks:
            return scale._replace(ticks=ticks)
    return scale


def _label_width(label: str) -> float:
    return sum(_STOP if char == "." else _LETTER if char.isalpha() else _DIGIT for char in label)


def _apart(ticks: Sequence[tuple[float, str]], scale: StudyScale) -> tuple[tuple[float, str], ...]:
    """Ticks at equal steps as far as they have room beside each other; none where some inside the ends have none.

    One at an end is left out where it has no room: its label begins or ends there, and so needs more.
    """
    inner = math.log if scale.is_log else float
    span = inner(scale.high) - inner(scale.low)

    def has_room(one: tuple[float, str], other: tuple[float, str]) -> bool:
        # A label at an end begins or ends there; any other has its middle at its tick.
        parts = (_label_width(label) / (1 if at in (scale.low, scale.high) else 2) for at, label in (one, other))
        return abs(inner(one[0]) - inner(other[0])) >= (sum(parts) + _BLANK - 1e-9) * span

    kept = list(ticks)
    if len(kept) > 2 and kept[0][0] == scale.low and not has_room(kept[0], kept[1]):
        del kept[0]
    if len(kept) > 2 and kept[-1][0] == scale.high and not has_room(kept[-1], kept[-2]):
        del kept[-1]
    is_apart = all(has_room(one, other) for one, other in pairwise(kept))
    return tuple(kept) if is_apart and len(kept) > 1 else ()

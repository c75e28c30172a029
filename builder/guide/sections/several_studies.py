"""What several studies say of a level: the typical study where earned, how many on which side, how many clear."""

from __future__ import annotations

from collections.abc import Iterable

from ...reading.model import Question
from ...results.findings.direction import Compared
from ...results.findings.findings import Catalogue
from ...results.findings.side import Side
from ...results.findings.which_way import Direction
from ...results.numbers.clearness import NEWCOMBE, clearness
from ...results.numbers.ratio_pool_lines import short_pool_line
from ...results.numbers.shown_numbers import count
from ...results.saying.event_words import is_measured, way_words_of
from ...results.saying.source_reference import source_link
from ...results.values.figures import Figure
from ...results.values.line import Line, joined, line, typed
from .compared_levels import comparisons, leading
from .one_study import CLEAR, UNCLEAR, which_way
from .ratio_pools import ratio_pools

_NAMES: dict[Direction, str] = {
    "better": "better", "worse": "worse", "no clear difference": "level", "not stated": "not-stated",
}  # fmt: skip
_THAT_STATE = (" studies that state a side", " study that states a side")
_SAYS = {"better": "on the better side", "worse": "on the worse side"}
_NEITHER = "neither more nor fewer"
SMALL_STUDIES = "a small true difference is often not clear in a small study"


def directions_workings(question: Question, factor: str) -> str:
    """The workings that all comparisons of a factor share, opened by `direction_counts`."""
    return f"{question.id}-{factor}-directions"


def direction_counts(catalogue: Catalogue, question: Question, item: Compared, *, is_brief: bool = False) -> Line:
    """Which way the studies lie within one factor and outcome, how many each way, and how many are clear by themselves.

    Of a single study, its side and how clear that is. is_brief: without numbers that stand elsewhere on the page.
    """
    over = _reaching_over(catalogue, question, item)
    if not item.sides:
        return over
    if len(item.sides) == 1:
        side = item.sides[0]
        if is_brief:
            return line(which_way(side, f"{question.id}/{item.factor}", is_brief=True), over)
        place = f"{question.id}/{item.factor}"
        return line(_only_study(catalogue, question, item), " study: ", which_way(side, place), over)
    said, rest = _stated(catalogue, question, item)
    is_told = not is_brief and any(_with_number(item))
    clear, meaning, small = _clear(catalogue, question, item) if is_told else ((), "", "")
    bracket = f" ({small})" if small else None
    # Without "by" it reads as if the number of clear studies were more than chance gives.
    return line(said, clear, f", by {meaning}" if meaning else None, bracket, rest, over)


def _stated(catalogue: Catalogue, question: Question, item: Compared) -> tuple[Line, Line]:
    """ "fewer healed in 5 of 6 studies that state a side", and of the others "; 1 more says so in words, ..."."""
    figures = by_direction(catalogue, question, item)
    stated = [way for way in ("better", "worse", "no clear difference") if way in figures]
    measured = all(is_measured(side.finding) for side in item.sides)
    parts: list[Line] = []
    if stated:
        number = len(_with_number(item))
        of_ways = tuple(figures[way] for way in stated)
        total = _count(catalogue, question, item, "stated", number, "a side stated", inputs=of_ways)
        ways = [
            line(way_words_of(item.outcome, way, is_measured=measured) or _NEITHER, " in ", figures[way])
            for way in stated
        ]
        of = line(total, _THAT_STATE[number == 1])
        if number == 1:
            # "1 of 1" tells nothing more.
            parts.append(line(ways[0], _THAT_STATE[True]))
        elif len(ways) == 1:
            parts.append(line(ways[0], " of ", of))
        else:
            # Of several ways the last alone would seem to be of all of them.
            parts.append(line("of ", of, ", ", joined(ways, ", ")))
    others = _in_words(catalogue, question, item)
    if "not stated" in figures:
        others.append(line(figures["not stated"], " not stated"))
    lead = "the studies do not agree: " if item.verdict == "mixed" else None
    return line(lead, joined(parts)), line("; " if parts and others else None, joined(others))


def _with_number(item: Compared) -> list[Side]:
    """The studies that state a side by a number: only these are counted."""
    return [side for side in item.sides if side.direction != "not stated" and not side.is_in_words]


def _in_words(catalogue: Catalogue, question: Question, item: Compared) -> list[Line]:
    """How many studies say which way without a number, told apart from those that count."""
    out: list[Line] = []
    numbered = {side.direction for side in _with_number(item)}
    for way in ("better", "worse", "no clear difference"):
        mine = [side for side in item.in_words if side.direction == way]
        if not mine:
            continue
        figure = _count_in_words(catalogue, question, item, way, len(mine))
        if numbered == {way}:
            said = line(f" more {'says' if len(mine) == 1 else 'say'} so")
        else:
            measured = all(is_measured(side.finding) for side in mine)
            said = line(
                f" {'says' if len(mine) == 1 else 'say'} ",
                way_words_of(item.outcome, way, is_measured=measured) or _NEITHER,
            )
        out.append(line(figure, said, " in words, without a number"))
    return out


def _only_study(catalogue: Catalogue, question: Question, item: Compared) -> Figure:
    """The count of the one study of a comparison, however it states its side."""
    (side,) = item.sides
    if not side.is_in_words:
        return by_direction(catalogue, question, item)[side.direction]
    return _count_in_words(catalogue, question, item, side.direction, 1)


def _count_in_words(catalogue: Catalogue, question: Question, item: Compared, way: Direction, number: int) -> Figure:
    says = f"in words only, {_SAYS.get(way, way)}"
    return _count(catalogue, question, item, f"in-words-{_NAMES[way]}", number, says, inputs=inputs_of(item.sides))


def told_apart(catalogue: Catalogue, question: Question, item: Compared) -> tuple[Line, list[Line]]:
    """What `several` says in two parts: the figures, and what one must know to read them, each a clause."""
    if len(item.sides) < 2:
        by = _which_counts(catalogue, question, item)
        return direction_counts(catalogue, question, item), [*([by] if by else []), *_how_compared(catalogue, item)]
    clear: Line = ()
    notes: list[Line] = []
    if _with_number(item):
        clear, meaning, small = _clear(catalogue, question, item)
        notes.extend(line(said) for said in (f"clear means {meaning}" if meaning else "", small) if said)
    over = _reaching_over(catalogue, question, item, lead="")
    notes.extend(said for said in (over, _which_counts(catalogue, question, item)) if said)
    said, rest = _stated(catalogue, question, item)
    figures = line(typical(catalogue, question, item), said, clear, rest)
    return figures, [*notes, *_how_compared(catalogue, item)]


def _how_compared(catalogue: Catalogue, item: Compared) -> list[Line]:
    """How the groups differed at the start, and which cuts were chosen from the data, study by study."""
    out: dict[tuple[str, str], Line] = {}
    for side in item.sides:
        key, claim = side.finding.key, side.finding.claim
        words = "; ".join(word.text for word in claim.differ_in)
        if words:
            said = line("in ", source_link(key, catalogue), " at the start the groups differed: ", typed(words))
            out[(key, words)] = said
        if claim.cut is not None and claim.cut.text == "chosen from the data":
            out[(key, "")] = line("in ", source_link(key, catalogue), " the cut was chosen from the data")
    return list(out.values())


def one_or_several(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """As `several`, of a single study without a count: for the page of the question, which tells many of them."""
    if len(item.sides) == 1:
        over = _reaching_over(catalogue, question, item)
        by = _which_counts(catalogue, question, item)
        way = which_way(item.sides[0], f"{question.id}/{item.factor}")
        return line("one study: ", way, over, "; " if by else None, by)
    return several(catalogue, question, item)


def several(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """The typical study, the sides, and how many are clear; of a single study its side and how clear."""
    counts = direction_counts(catalogue, question, item)
    if len(item.sides) < 2:
        return counts
    by = _which_counts(catalogue, question, item)
    return line(typical(catalogue, question, item), counts, "; " if by else None, by)


def typical(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """ "the typical study: odds ratio 0.25 (95% CI 0.11 to 0.54), 5 studies; ", only where a pool is shown."""
    lead = leading(question, comparisons(catalogue, question, item.factor))
    is_leading = lead is not None and lead.name == item.name
    pools = ratio_pools(catalogue, question, item, is_leading)
    return line(
        *(
            part
            for name, pool in (("crude", pools.crude), ("adjusted", pools.adjusted))
            if pool.is_shown
            for part in line(f"the typical study, {name}: ", short_pool_line(pool), "; ")
        )
    )


def _reaching_over(catalogue: Catalogue, question: Question, item: Compared, *, lead: str | None = None) -> Line:
    """How many levels of papers lie in this band and in another, which count in neither; empty without one."""
    number = len(item.reaching)
    if not number:
        return ()
    if lead is None:
        lead = "; and " if item.sides else "of this level alone nothing; "
    figure = _count(
        catalogue, question, item, "reaching", number, "reach over this level and another",
        inputs=inputs_of(item.reaching),
    )  # fmt: skip
    verb = "study that reaches" if number == 1 else "studies that reach"
    return line(lead, figure, f" {verb} over this and another level, counted in neither")


def by_direction(catalogue: Catalogue, question: Question, item: Compared) -> dict[Direction, Figure]:
    """How many studies point each way, each number from the studies that it counts; only ways that one points."""
    return {
        way: _count(
            catalogue, question, item, name, item.count(way), _SAYS.get(way, way),
            inputs=inputs_of(side for side in item.sides if side.direction == way and not side.is_in_words),
        )
        for way, name in _NAMES.items()
        if item.count(way)
    }  # fmt: skip


def opened_workings(catalogue: Catalogue, question: Question, factor: str, inputs: Iterable[Figure]) -> str:
    """The workings of every count of studies of a factor."""
    return catalogue.book.explain(
        directions_workings(question, factor),
        "Studies by direction",
        "each study counted once, on the side of its own point estimate; equal at whole per cent, or a ratio that "
        "prints as 1.0, is no clear difference; clear where the 95% interval of the difference, or the printed one of "
        "a ratio, leaves out no difference, and where nothing takes its weight; the P value decides nothing",
        called="studies by direction",
        published=f"McKenzie & Brennan, Cochrane Handbook, chapter 12; {NEWCOMBE}",
        is_each_told=True,
        inputs=inputs,
    )


def _count(
    catalogue: Catalogue, question: Question, item: Compared, name: str, number: int, says: str,
    *, inputs: tuple[Figure, ...],
) -> Figure:  # fmt: skip
    workings = opened_workings(catalogue, question, item.factor, inputs_of((*item.sides, *item.reaching)))
    known = catalogue.evidence.vocabulary.factors.get(item.factor)
    titles = {level.id.text: level.title.text for level in known.levels} if known is not None else {}
    what = f"{titles.get(item.level, item.level)}, {item.outcome.title.text}"
    return count(
        catalogue.book, f"{question.id}/{item.factor}/{name}-{item.name}", number, "study", workings,
        says=f"{what}: {says}", inputs=inputs,
    )  # fmt: skip


def inputs_of(sides: Iterable[Side]) -> tuple[Figure, ...]:
    """The numbers of these comparisons, each once."""
    return tuple(dict.fromkeys(figure for side in sides for figure in side.figures))


def _clear(catalogue: Catalogue, question: Question, item: Compared) -> tuple[Line, str, str]:
    """ "; 4 of them clear by themselves", what clear means, and what a small study often cannot show; "" for none."""
    place = f"{question.id}/{item.factor}"
    stated = _with_number(item)
    found = [clearness(side, place).is_clear for side in stated]
    if len(found) == 1:
        (is_clear,) = found
        if is_clear is None:
            return line("; it has no interval that decides"), "", ""
        return (
            (line("; clear by itself"), CLEAR, "") if is_clear else (line("; not clear by itself"), "", SMALL_STUDIES)
        )
    if all(is_clear is None for is_clear in found):
        return line("; none of them has an interval that decides"), "", ""
    clear = [side for side, is_clear in zip(stated, found, strict=True) if is_clear]
    number = len(clear)
    figure = (
        _count(catalogue, question, item, "clear", number, "clear by themselves", inputs=inputs_of(clear))
        if clear else None
    )  # fmt: skip
    small = SMALL_STUDIES if number < len(stated) else ""
    many = "clear by itself" if number == 1 else "clear by themselves"
    if figure is None:
        return line(f"; none of them {many}"), "", small
    return line("; ", figure, f" of them {many}"), CLEAR, small


def _which_counts(catalogue: Catalogue, question: Question, item: Compared) -> Line:
    """Which estimate decides of studies that print both counts and an adjusted ratio, and how clear the other is."""
    place = f"{question.id}/{item.factor}"
    by_ratio: list[Line] = []
    by_counts: list[Line] = []
    for side in item.sides:
        other = _other_estimate(item, side)
        if other is None:
            continue
        who = line(source_link(side.finding.key, catalogue))
        found = [clearness(each, place).is_clear for each in (side, other)]
        own, others = ("clear" if is_clear else UNCLEAR for is_clear in found)
        is_same = None in found or own == others
        if is_same and len(item.sides) == 1 and side.is_adjusted:
            # Its numbers say by themselves that they are adjusted, and its counts stand beside them.
            continue
        if side.is_adjusted:
            by_ratio.append(line(who, None if is_same else f" (its counts alone: {others})"))
            continue
        counts = "crude ratio decides" if side.finding.kind == "contrast" else "counts decide"
        why = unplanned_words(other)
        end = f" and not its adjusted ratio, {why}"
        if not is_same:
            end = f": {own}; its adjusted ratio, {why}, is {'clear' if found[1] else 'not'}"
        by_counts.append(line("in ", who, f", a randomised trial, the {counts}{end}"))
    lead = "counted by its adjusted ratio and not by its counts: "
    return joined([*([line(lead, joined(by_ratio, ", "))] if by_ratio else []), *by_counts])


def unplanned_words(side: Side) -> str:
    """What its report says of a comparison that nobody says was planned."""
    planned = side.finding.claim.planned
    return "not planned" if planned is not None and planned.text == "no" else "not said to be planned"


def _other_estimate(item: Compared, side: Side) -> Side | None:
    """The crude one beside the adjusted one of a study that decides, or the other way round; None without one."""
    return next(
        (
            other
            for other in (item.crude if side.is_adjusted else item.adjusted)
            if other.people & side.people and other.direction != "not stated" and not other.is_in_words
        ),
        None,
    )

"""Pooled rates: where they are earned, the typical study and its limits; else the range, and why not."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from ...numerals import Unit as CountedUnit
from ...numerals.lexicon import ANY_UNIT
from ...records import NamedTuple
from ...synthesis import Pooled, Refusal
from ..findings.comparable import Comparability, Group, why_not_pooled
from ..findings.findings import Catalogue, Finding
from ..saying.short_words import short_timing
from ..saying.wording import length, n_of_n
from ..values.figures import Figure
from ..values.line import Line, Marked, joined, line, typed
from .ranged import Ranged, ranged
from .shown_numbers import count, ratio, share

MODEL = (
    "Stijnen, Hamza, Oezdemir 2010, Stat Med 29:3046-3067; prediction interval: Higgins, Thompson, Spiegelhalter 2009, "
    "J R Stat Soc A 172:137-159"
)
_FORMULA = (
    "events of each study binomial, logits of the studies' rates normal with mean m and standard deviation tau; m and "
    "tau by maximum likelihood; interval m ± t(k - 1) × SE; further study m ± t(k - 2) × √(tau² + SE²); each turned "
    "back by 1 / (1 + exp(-x))"
)
_CONVENTION = "random-intercept logistic model, nothing added to empty cells, 95%; the rate is the median study's"


class Span(NamedTuple):
    """A pooled result as proportions or ratios, for drawing."""

    point: float
    low: float
    high: float
    prediction: tuple[float, float] | None


class RatePool(NamedTuple):
    """What may be said of several studies' rates together."""

    place: str
    suffix: str
    comparability: Comparability
    group: Group | None
    """The studies that agree; None where no two do."""
    is_shown: bool
    figures: dict[str, Figure]
    """Of a shown pool: rate, interval/low, interval/high, prediction/low, prediction/high, tau, studies, units,
    failures. Of studies side by side: range/low, range/high, range/studies."""
    span: Span | None
    is_without_variation: bool
    """True where tau is 0 and the prediction interval deceives."""
    reasons: tuple[str, ...]
    """Why no pooled rate is shown."""
    ends: tuple[Finding, ...]
    """The studies with the lowest and the highest rate of those that stand side by side."""
    ranged: Ranged
    """All those, and what they share."""

    @property
    def counted(self) -> CountedUnit:
        """What was counted."""
        return self.group.findings[0].counted if self.group else ANY_UNIT


def rate_pool(
    catalogue: Catalogue, place: str, suffix: str, title: str, comparability: Comparability, chosen: Group | None = None
) -> RatePool:
    """The pooled rate of the first group that earns one, else the range of what stands side by side.

    place: "question/factor" or "question/overall". suffix: tells this pool from others of the place; "" for the main
    one. title: what is pooled, in words. chosen: another group than the first.
    """
    group = chosen
    if group is None and comparability.groups and len(comparability.groups[0].findings) > 1:
        group = comparability.groups[0]
    found = ranged(
        catalogue, place.partition("/")[0], comparability.counted, group.findings[0] if group is not None else None
    )
    empty = RatePool(
        place, suffix, comparability, group, False, {}, None, False, why_not_pooled(comparability), (), found
    )
    maker = _Maker(catalogue, place, suffix)
    works = group is not None and group.works_pool
    workings = maker.explain(title, group.findings, _FORMULA, is_model=True) if group is not None and works else ""
    if found.findings:
        is_same = works and group is not None and {item.base for item in found.findings} == {
            item.base for item in group.findings
        }  # fmt: skip
        empty = _with_range(catalogue, empty, maker, workings if is_same else "", title)
    if group is None or not group.works_pool:
        return empty
    return _pooled(catalogue, empty, group, maker, workings)


def _with_range(catalogue: Catalogue, empty: RatePool, maker: _Maker, workings: str, title: str) -> RatePool:
    """The lowest and the highest rate, and of how many studies. workings: of a pool of just these; "" without."""
    rows = empty.ranged.findings
    if not workings:
        workings = maker.explain(title, rows, "the lowest and the highest rate; each study counted once")
    ordered = sorted(rows, key=lambda item: (Fraction(item.events or 0, item.total or 1), item.base))
    figures: dict[str, Figure] = {}
    for end, finding in (("low", ordered[0]), ("high", ordered[-1])):
        rate = Fraction(finding.events or 0, finding.total or 1)
        inputs = [figure for figure in (finding.figure("events"), finding.figure("total")) if figure is not None]
        says = "lowest rate" if end == "low" else "highest rate"
        figures[f"range/{end}"] = share(
            catalogue.book, maker.name("range", f"/{end}"), rate, finding.total or 0, workings, says=says, inputs=inputs
        )
    # One number a study tells which are counted.
    totals = [figure for finding in rows if (figure := finding.figure("total")) is not None]
    figures["range/studies"] = count(
        catalogue.book, maker.name("range", "/studies"), len(rows), "study", workings, says="studies between them",
        inputs=totals,
    )  # fmt: skip
    return empty._replace(figures=figures, ends=(ordered[0], ordered[-1]))


# A page is composed once for its figures and again when it is written, in a preview after every save: without this the
# models of a guide that pools every rate are fitted twice, a tenth of its build.
@lru_cache(maxsize=8192)
def typical_rate(events: tuple[int, ...], totals: tuple[int, ...]) -> Pooled | Refusal:
    """The rate of the typical study, by the model that MODEL names; one count of each a study."""
    from ...synthesis import pooled_proportion

    return pooled_proportion(events, totals)


def _pooled(catalogue: Catalogue, empty: RatePool, group: Group, maker: _Maker, workings: str) -> RatePool:
    totals = tuple(item.total or 0 for item in group.findings)
    result = typical_rate(tuple(item.events or 0 for item in group.findings), totals)
    if isinstance(result, Refusal):
        return empty._replace(reasons=(result.reason.rstrip("."), *empty.reasons))
    natural = result.natural()
    units = sum(totals)
    book = catalogue.book
    hidden = "" if group.shows_pool else " (too few studies or failures: not shown on the page)"
    figures = dict(empty.figures)
    rows = [
        ("rate", natural.estimate, f"typical study{hidden}"),
        ("interval/low", natural.interval.low, "its lower limit"),
        ("interval/high", natural.interval.high, "its upper limit"),
    ]
    if natural.prediction_interval is not None:
        rows.append(("prediction/low", natural.prediction_interval.low, "a further study, lower limit"))
        rows.append(("prediction/high", natural.prediction_interval.high, "a further study, upper limit"))
    for name, value, says in rows:
        stem, slash, end = name.partition("/")
        figures[name] = share(book, maker.name(stem, slash + end), value, units, workings, says=says)
    tau = (result.tau_squared or 0.0) ** 0.5
    figures["tau"] = ratio(book, maker.name("tau"), tau, "none", workings, says="tau, standard deviation of the logits")
    figures["studies"] = count(
        book, maker.name("pooled-studies"), len(totals), "study", workings, says="studies pooled"
    )
    unit = group.findings[0].unit or "none"
    figures["units"] = count(book, maker.name("pooled-units"), units, unit, workings, says="examined in them")
    figures["failures"] = count(
        book, maker.name("pooled-failures"), group.failures, unit, workings, says="of them failures"
    )
    further = natural.prediction_interval
    span = Span(natural.estimate, *natural.interval, prediction=(further.low, further.high) if further else None)
    return empty._replace(
        is_shown=group.shows_pool, figures=figures, span=span, is_without_variation=result.tau_squared == 0
    )


class _Maker:
    """Names and workings of one pool."""

    def __init__(self, catalogue: Catalogue, place: str, suffix: str) -> None:
        self._catalogue = catalogue
        self._place = place
        self._suffix = f"-{suffix}" if suffix else ""

    def name(self, name: str, end: str = "") -> str:
        """The id of one result."""
        return f"{self._place}/{name}{self._suffix}{end}"

    def explain(self, title: str, members: tuple[Finding, ...], formula: str, *, is_model: bool = False) -> str:
        """Open the workings with every count and its table."""
        stem = f"{self._place.replace('/', '-')}{self._suffix or '-main'}-{'rates' if is_model else 'range'}"
        inputs = [
            figure for item in members for name in ("events", "total") if (figure := item.figure(name)) is not None
        ]
        return self._catalogue.book.explain(
            stem,
            title,
            formula,
            published=MODEL if is_model else "",
            convention=_CONVENTION if is_model else "",
            inputs=inputs,
            table=counts_table(members),
            download=f"data/workings/{stem}.csv",
        )


def counts_table(members: tuple[Finding, ...]) -> tuple[tuple[str, ...], ...]:
    """Header and one row a study: what the CSV beside the workings holds."""
    rows = [("study", "figure", "events", "total")]
    for item in members:
        study = item.studies[0].id if item.studies else ""
        rows.append((study, item.base, str(item.events), str(item.total)))
    return tuple(rows)


def pool_line(pool: RatePool, told: set[tuple[str, ...]] | None = None) -> Line:
    """What a page says of a pool: the typical study with all that belongs to it, or "not pooled: ..." and the range.

    told: as for `not_pooled_line`.
    """
    if not pool.is_shown:
        why = not_pooled_line(pool.reasons, told)
        return line(why, "; ", range_line(pool)) if pool.ends else why
    found = pool.figures
    return line(
        "the typical study: ", found["rate"], " (", Marked("convention", "95%"), " CI ", found["interval/low"], " to ",
        found["interval/high"], "), ", found["studies"], " studies, ", found["units"],
        f" {pool.counted.many}, ", found["failures"], " failures; tau ", found["tau"],
        " (on the logit scale; this model gives no limits for it)", further_line(pool),
    )  # fmt: skip


def pool_told(pool: RatePool) -> tuple[Line, Line]:
    """The same in two parts: what is said first, and what stands below it."""
    if not pool.is_shown:
        return line(range_line(pool), "; not pooled") if pool.ends else line("not pooled"), not_pooled_line(
            pool.reasons
        )
    found = pool.figures
    return line("the typical study: ", found["rate"]), line(
        found["rate"], " (", Marked("convention", "95%"), " CI ", found["interval/low"], " to ", found["interval/high"],
        "), ", found["studies"], " studies, ", found["units"], f" {pool.counted.many}, ", found["failures"],
        " failures; tau ", found["tau"], " (on the logit scale; this model gives no limits for it)", further_line(pool),
    )  # fmt: skip


def further_line(pool: RatePool) -> Line:
    """Where a further study would lie, with the warning that belongs to no seen variation."""
    low, high = pool.figures.get("prediction/low"), pool.figures.get("prediction/high")
    if low is None or high is None:
        return ()
    return line(
        "; a further study would lie between ", low, " and ", high, " (", Marked("convention", "95%"),
        " prediction interval)",
        " (deceptively narrow: no variation between the studies was seen)" if pool.is_without_variation else None,
    )  # fmt: skip


def range_line(pool: RatePool) -> Line:
    """ "4 studies at 12 months lie between 20 of 28 eyes (71%) and 94 of 110 eyes (85%)", with what they share.

    Where they share no time or way, what the range spans: each end with its time.
    """
    if len(pool.ends) != 2:
        return ()
    found = pool.ranged
    ends = [_end_line(finding, pool.figures[f"range/{end}"]) for finding, end in zip(pool.ends, _ENDS, strict=True)]
    studies = line(pool.figures["range/studies"], " studies")
    rest = "; what was counted otherwise stands by itself" if found.leaves_out else None
    is_pair = len(found.findings) == 2
    if not found.is_alike:
        low, high = (line(end, ", ", short_timing(row)) for row, end in zip(pool.ends, ends, strict=True))
        said = line(low, ", and ", high) if is_pair else line("from ", low, ", to ", high)
        return line(studies, ", not alike in time or people: ", said, rest)
    first = found.findings[0]
    at = first.time("at")
    whom = [
        line(typed(word)) for word in (found.way, f"of {first.claim.given.text}" if first.claim.given else "") if word
    ]
    of = line(" (", joined(whom, ", "), ")") if whom else None
    lead = line(studies, line(" at ", length(at)) if at is not None else None, of)
    return line(lead, ": " if is_pair else " lie between ", ends[0], " and ", ends[1], rest)


_ENDS = ("low", "high")


def _end_line(finding: Finding, rate: Figure) -> Line:
    # 16 of 16 is never printed as a percentage.
    if finding.events in (0, finding.total):
        return n_of_n(finding)
    return line(n_of_n(finding), " (", rate, ")")


def not_pooled_line(reasons: tuple[str, ...], told: set[tuple[str, ...]] | None = None) -> Line:
    """ "not pooled: " and every reason.

    told: several reasons that stand further up on the page already are not said again; these are added to it.
    """
    if told is not None and len(reasons) > 1:
        if reasons in told:
            return line("not pooled, for the reasons told above")
        told.add(reasons)
    return line("not pooled: ", joined([line(typed(reason, "convention")) for reason in reasons]))

"""talk: slides and the sheet of a question for one case; or, with --check, an edited talk beside the guide."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path

from .refused import lacks_compendium, say_problems

_FILE = "slides.pptx"
_SHEET = "handout.pdf"


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `talk` takes beside the folder."""
    parser.add_argument("question", metavar="QUESTION", nargs="?", help="id of the question: the name of its file")
    parser.add_argument(
        "--situation",
        metavar="ANSWERS",
        default="",
        help="answers of the case, as in size=large,place=side (none)",
    )
    parser.add_argument("--out", metavar="DIR", help=f"where {_FILE} and {_SHEET} are put; nothing there is replaced")
    parser.add_argument(
        "--check",
        metavar="FILE",
        help="in place of a question: an edited talk (.pptx, .docx, .txt, .md); it is read here and sent nowhere",
    )
    parser.add_argument("--format", choices=("text", "json"), default="text", help="of --check: to read, or for tools")


def run(options: argparse.Namespace) -> int:
    """0: the slides stand; 1: something in the evidence is to be mended; 2: a name that nothing has, or no place.

    With --check: 0: every number stands in the guide; 1: one does not, or of another thing; 2: no such file.
    """
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    if options.check is not None:
        return _check(root, Path(options.check), options.format)
    if options.question is None or options.out is None:
        print("name a question and, with --out, a folder for its slides; or a talk to --check", file=sys.stderr)
        return 2
    from ..build import compose

    guide, problems = compose(root)
    if guide is None:
        say_problems(problems, "; no slides were written")
        return 1
    from ..audit.nearest import did_you_mean

    questions = list(guide.talks)
    if options.question not in questions:
        said = f"there is no question {options.question}{did_you_mean(options.question, questions)}"
        print(f"{said}\nthere are: {', '.join(questions)}", file=sys.stderr)
        return 2
    talk = guide.talks[options.question]
    answers, faults = _answers(options.situation, talk.answers)
    file = Path(options.out) / _FILE
    sheet = file.with_name(_SHEET)
    faults += _misplaced(file) or _misplaced(sheet)
    if faults:
        print("\n".join(faults), file=sys.stderr)
        return 2
    from ..reading.slide_template import read_slide_template
    from ..rendering.handout.pdf import handout_pdf
    from ..rendering.slides.deck import deck

    made = deck(guide, options.question, answers, template=read_slide_template(root))
    printed = handout_pdf(guide, guide.handouts.for_case(options.question, answers))
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(made)
        sheet.write_bytes(printed)
    except OSError as fault:
        print(f"{file} could not be written: {fault.strerror}", file=sys.stderr)
        return 2
    print(f"{file}: {len(made)} bytes\n{sheet}: {len(printed)} bytes", file=sys.stderr)
    return 0


def _check(root: Path, file: Path, form: str) -> int:
    """What the guide knows of each number of a text."""
    from ..build import compose
    from ..recheck.compared import TO_MEND, checked_numbers
    from ..recheck.documents import UnreadableDocumentError, read_document
    from ..recheck.known import Record
    from ..recheck.told import as_json, as_text

    try:
        document = read_document(file.name, file.read_bytes())
    except (OSError, UnreadableDocumentError) as fault:
        print(fault, file=sys.stderr)
        return 2
    guide, problems = compose(root)
    if guide is None:
        say_problems(problems, "; nothing was held against it")
        return 1
    record = Record(guide)
    found = list(checked_numbers(document, record))
    print((as_json if form == "json" else as_text)(file.name, found, record.release), end="")
    return 1 if any(item.verdict in TO_MEND for item in found) else 0


def _answers(typed: str, known: Iterable[str]) -> tuple[frozenset[str], list[str]]:
    """The answers, "field=level" each, and what is wrong with any of them, all at once."""
    from ..audit.nearest import did_you_mean
    from ..reading.fdi_chart import FIELD, NUMBERS, chart_levels

    levels: dict[str, list[str]] = {}
    for name in known:
        field, _, level = name.partition("=")
        levels.setdefault(field, []).append(level)
    is_charted = any(f"{field}={level}" in set(known) for field, level in chart_levels(NUMBERS[0]).items())
    found: dict[str, str] = {}
    faults: list[str] = []
    for part in _parts(typed):
        field, equals, level = (word.strip() for word in part.partition("="))
        if is_charted and field == FIELD and level in NUMBERS:
            found |= {name: value for name, value in chart_levels(level).items() if value in levels.get(name, ())}
        elif not equals:
            faults.append(f'"{part}" has no = in it: type FIELD=ANSWER, with a comma before the next')
        elif field not in levels and not (is_charted and field == FIELD):
            fields = [*levels, FIELD] if is_charted else list(levels)
            faults.append(f"the situation asks for no {field}{did_you_mean(field, fields)}; it asks: {_list(fields)}")
        elif level not in (NUMBERS if field == FIELD else levels[field]):
            choices = NUMBERS if field == FIELD else levels[field]
            faults.append(f"{field} has no answer {level}{did_you_mean(level, choices)}; it has: {_list(choices)}")
        elif found.get(field, level) != level:
            faults.append(f"{field} was answered twice: {found[field]} and {level}")
        else:
            found[field] = level
    return frozenset(f"{field}={level}" for field, level in found.items()), faults


def _parts(typed: str) -> Iterator[str]:
    """Answers apart; those of an address have "&" between them."""
    for part in typed.lstrip("#").replace("&", ",").split(","):
        if part.strip():
            yield part.strip()


def _list(names: Iterable[str]) -> str:
    return ", ".join(names) or "nothing"


def _misplaced(file: Path) -> list[str]:
    """Why nothing can be put there: slides are edited by hand, and no file of somebody is replaced."""
    if file.exists():
        return [f"{file} is there already, and may have been edited: name another folder"]
    wrong = next((parent for parent in file.parents if parent.exists() and not parent.is_dir()), None)
    return [f"{wrong} is a file, and slides need a folder there"] if wrong is not None else []

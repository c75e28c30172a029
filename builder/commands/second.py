"""second: a report is read once more without the first reader's values; then both readings are laid side by side."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from ..reading.evidence import read_evidence
from ..writing.adding import must_name_a_file
from ..writing.second_reading import FOLDER, Compared, Differing, compare, reader, unfinished, write_blank
from ..writing.starting import CannotWrite
from .refused import lacks_compendium


def add_options(parser: argparse.ArgumentParser) -> None:
    """What `second` takes: the report that is read again."""
    parser.add_argument("key", metavar="KEY", help="the key of a report that has its claim file")


def run(options: argparse.Namespace) -> int:
    """0: the blank file stands there, or both readings agree; 1: they do not, or one is not whole; 2: no compendium."""
    root = Path(options.root)
    if lacks_compendium(root):
        return 2
    file = f"{FOLDER}/{options.key}.yaml"
    try:
        must_name_a_file(options.key)
        if not (root / file).is_file():
            write_blank(root, options.key, read_evidence(root).sources.get(options.key))
            print(f"{file}: fill it in from the paper, then type the same command again to compare")
            return 0
        first = f"evidence/claims/{options.key}.yaml"
        ours, theirs = _text(root / first), _text(root / file)
        empty = unfinished(file, theirs)
        if empty:
            # Whoever still reads must not see what the first reader found.
            for place in empty:
                print(f"{place.file}:{place.line}:{place.column}: nothing is typed here yet", file=sys.stderr)
            print("fill these in, or delete the line of what the paper does not have", file=sys.stderr)
            return 1
        if reader(ours) == reader(theirs):
            print(f"{file}: both readings are by {reader(theirs)}: a second one is another person's", file=sys.stderr)
            return 1
        found = compare((first, ours), (file, theirs))
    except CannotWrite as fault:
        print(fault, file=sys.stderr)
        return 1
    for each in found.differing:
        print(_told(each))
    _say_agreement(found)
    return 1 if found.differing else 0


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")
    except (OSError, UnicodeDecodeError) as fault:
        raise CannotWrite(f"{path.name} cannot be read as a text in UTF-8") from fault


def _told(each: Differing) -> str:
    place = each.second_at or each.first_at
    assert place is not None
    start = f"{place.file}:{place.line}:{place.column}: {each.path}: "
    there = f" ({each.first_at.file}:{each.first_at.line})" if each.first_at is not None else ""
    if each.second_at is None:
        return f'{start}the first reading has "{each.first}", the second has no such field'
    if each.first_at is None:
        return f'{start}the second reading has "{each.second}", the first has no such field'
    return f'{start}"{each.second}" in the second reading, "{each.first}" in the first{there}'


def _say_agreement(found: Compared) -> None:
    """Counts and per cent by field, and beyond chance where a field has a closed list."""
    print(f"{found.alike} of {found.both} fields that both typed agree{_share(found.alike, found.both)}")
    for field in found.fields:
        kappa = f"; kappa {field.kappa:.2f}" if field.kappa is not None else ""
        print(f"  {field.name}: {field.alike} of {field.both}{_share(field.alike, field.both)}{kappa}")
    if any(field.kappa is not None for field in found.fields):
        print(
            "kappa is agreement beyond what chance alone would give (Cohen 1960): of few fields, or where one word is "
            "nearly always right, it can be low though the readers agree"
        )
    if found.differing:
        print("settle each with the paper, a third person if need be; then mend the first reading")
    else:
        print("both agree: add `checked: {by: , on: }` with the second reader to the claim file")


def _share(part: int, whole: int) -> str:
    return f" ({100 * part / whole:.0f}%)" if whole else ""

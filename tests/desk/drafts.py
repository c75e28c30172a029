"""What people type at the desk: every report of a compendium as a draft, and the same with one thing typed wrongly."""

from __future__ import annotations

import copy
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml
from passageproof.desk.typed_files import passages_in, without_passages
from passageproof.reading.evidence import read_evidence

Draft = dict[str, Any]


def drafts_of(root: Path) -> dict[str, Draft]:
    """By key: each report as it would stand on the desk, under a key and ids of its own."""
    evidence = read_evidence(root)
    out = {}
    for key in evidence.reports:
        source = evidence.sources[key]
        file = (root / source.position.file).read_text("utf-8")
        start = file.rindex("@", 0, file.index(f"{{{key},"))
        end = file.find("\n@", start)
        entry = file[start : end if end > 0 else None].rstrip() + "\n"
        said = yaml.load((root / f"evidence/claims/{key}.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)
        said.pop("source")
        passages = [each._asdict() for each in passages_in("entry.bib", entry)]
        new = f"desk{key}"
        out[key] = {
            "entry": without_passages(entry).replace(f"{{{key},", f"{{{new},"),
            "passages": passages,
            "claims": said,
        }
    return out


def spoilt(drafts: dict[str, Draft], count: int, seed: int = 20_261_130) -> Iterator[Draft]:
    """So many drafts with one mistake each, every report in turn; the same from the same seed."""
    chance = random.Random(seed)
    keys = sorted(drafts)
    for order in range(count):
        draft = copy.deepcopy(drafts[keys[order % len(keys)]])
        _MISTAKES[order % len(_MISTAKES)](draft, chance)
        yield draft


def _leaves(said: Any) -> list[tuple[Any, Any]]:
    """Every text with what holds it."""
    out: list[tuple[Any, Any]] = []
    items = said.items() if isinstance(said, dict) else enumerate(said)
    for name, value in items:
        if isinstance(value, str):
            out.append((said, name))
        else:
            out += _leaves(value)
    return out


def _other_digit(draft: Draft, chance: random.Random) -> None:
    some = [(holder, name) for holder, name in _leaves(draft["claims"]) if any(sign.isdigit() for sign in holder[name])]
    holder, name = chance.choice(some)
    at = chance.choice([place for place, sign in enumerate(holder[name]) if sign.isdigit()])
    holder[name] = f"{holder[name][:at]}{(int(holder[name][at]) + 1) % 10}{holder[name][at + 1 :]}"


def _left_out(draft: Draft, chance: random.Random) -> None:
    holder, name = chance.choice([each for each in _leaves(draft["claims"]) if isinstance(each[0], dict)])
    del holder[name]


def _unknown_name(draft: Draft, chance: random.Random) -> None:
    holder, name = chance.choice(_leaves(draft["claims"]))
    holder[name] += "x"


def _other_passage(draft: Draft, chance: random.Random) -> None:
    passage = chance.choice(draft["passages"])
    passage["text"] = passage["text"].replace("1", "7", 1)


def _odd_signs(draft: Draft, chance: random.Random) -> None:
    holder, name = chance.choice(_leaves(draft["claims"]))
    holder[name] = chance.choice(
        ['a: b, "c" # d', "{x}", "[1, 2]", "- 4", "é ‘5’", "&a", "*b", "!c", "yes", "1,5", "> 3"]
    )


def _renamed_field(draft: Draft, chance: random.Random) -> None:
    holder, name = chance.choice([each for each in _leaves(draft["claims"]) if isinstance(each[0], dict)])
    holder[f"{name}s"] = holder.pop(name)


_MISTAKES = (_other_digit, _left_out, _unknown_name, _other_passage, _odd_signs, _renamed_field)

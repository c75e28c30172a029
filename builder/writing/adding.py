"""The claim file of one more report, begun from its entry: what only a reader can know is left empty."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from pathlib import Path

from ..reading.latex import readable_text
from ..reading.model import Evidence
from ..reading.parsing import is_key
from ..reading.refusals import nearest
from ..reading.slugs import slug
from ..reading.source_model import Passage, Source
from .scalars import typed
from .schemas import renew_schemas
from .starting import CannotWrite

_WIDTH = 118

_HEAD = """\
# yaml-language-server: $schema=../schema/claims.json
# What is empty is to be filled in, or its line deleted where the paper does not have it; `check` names each.
"""

_READER = """\
read:
  by:
  on:
  depth:
studies:
  - id:
    species:
    design:
    selection:
    population:
      cause:
    setting:
      operators:
      centre:
      recruited:
    unit:
    flow:
      treated:
      due:
      examined:
    where:
claims:
"""

_CLAIM = """\
    question:
    outcome:
    events:
    total:
    where:{where}
    follow_up:
      from:
      timing:
"""


def write_claim_file(root: Path, evidence: Evidence, key: str) -> str:
    """Writes evidence/claims/KEY.yaml below root, and gives its path from there; and the schemas that its editor asks.

    Raises CannotWrite where no entry has the key, or where the file is there.
    """
    source = evidence.sources.get(key)
    if source is None:
        near = nearest(key, evidence.sources)
        hint = f": did you mean {near}?" if near else ": add its BibTeX entry first"
        raise CannotWrite(f'no entry of evidence/sources/ that can be read has the key "{key}"{hint}')
    must_name_a_file(key)
    file = f"evidence/claims/{key}.yaml"
    path = root / file
    path.parent.mkdir(exist_ok=True)
    try:
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(claim_file(source, evidence))
        for _ in renew_schemas(root):
            pass
    except FileExistsError as fault:
        raise CannotWrite(f"{file} is there already, and nothing is ever overwritten") from fault
    except OSError as fault:
        raise CannotWrite(f"{file} could not be written: {fault.strerror or fault}") from fault
    return file


def must_name_a_file(key: str) -> None:
    """Raises CannotWrite where the key could lead out of its folder, or be no key at all."""
    if not is_key(key):
        raise CannotWrite(f'"{key}" cannot name a file of claims: a key has letters, digits, "_" and "-" only')


def claim_file(source: Source, evidence: Evidence) -> str:
    """The text of the file: a claim for each passage, below the passage as it is typed."""
    title = source.fields.get("title")
    known = (
        ("people", evidence.compendium.people if evidence.compendium is not None else ()),
        ("questions", evidence.questions),
        ("outcomes", evidence.vocabulary.outcomes),
        ("factors, with levels or a contrast", evidence.vocabulary.factors),
    )
    said = comment(readable_text(title.text), "") if title is not None else ""
    said += "".join(comment(f"{what}: {', '.join(ids)}", "") for what, ids in known if ids)
    return f"{_HEAD}{said}source: {source.key}\n{_READER}{''.join(_claims(source.passages))}"


def _claims(passages: Iterable[Passage]) -> Iterator[str]:
    is_empty = True
    for passage in passages:
        is_empty = False
        yield comment(f"[{passage.bracket}] {readable_text(passage.text)}", "  ")
        yield f"  - id: {slug(passage.bracket)}\n" + _CLAIM.format(where=f" {typed(passage.bracket)}")
    if is_empty:
        yield comment("the entry has no passages yet: type them in its annotation, each behind its place", "  ")
        yield "  - id:\n" + _CLAIM.format(where="")


def comment(text: str, indent: str) -> str:
    """Lines of a remark."""
    lines = textwrap.wrap(" ".join(text.split()), _WIDTH - len(indent) - 2, break_long_words=False)
    return "".join(f"{indent}# {line}\n" for line in lines)

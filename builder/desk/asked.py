"""What the page asks of a session, by name, in JSON: whoever asks is a script."""

from __future__ import annotations

import base64
import json
from pathlib import Path
from typing import Any

from ..writing.exports.reference import CannotRead
from ..writing.importing import Export, Shelf, references_in, text_of
from .archive import zipped
from .choices import choices, form
from .second import blank_draft, compared
from .session import Session, draft_of
from .typed_files import passages_in, without_passages


class Asked:
    """One session, and every question that the page puts to it."""

    def __init__(self, root: str) -> None:
        """root: the folder that holds evidence/."""
        self._session = Session(Path(root))

    def answer(self, name: str, said: str) -> str:
        """The answer to one question. Raises AttributeError where none is called so, which is a fault of ours."""
        return json.dumps(getattr(self, f"_{name}")(json.loads(said)), ensure_ascii=False)

    def _open(self, said: Any) -> Any:
        return {"form": form(), "choices": choices(self._session.evidence)}

    def _ahead(self, said: Any) -> Any:
        return {"left": self._session.prove_some()}

    def _near(self, said: Any) -> Any:
        return self._session.near(said)

    def _whole(self, said: Any) -> Any:
        return self._session.whole(said)

    def _take(self, said: Any) -> Any:
        """said: {"text"}, an export or an entry, or {"data"}, its bytes in base64.

        Every reference in it, and what could not be read; `text`, as it was read, and what to look at in it.
        """
        shelf = Shelf(self._session.evidence)
        found: list[dict[str, Any]] = []
        faults: list[dict[str, Any]] = []
        export = Export(said.get("text", ""))
        try:
            if "data" in said:
                export = text_of(base64.b64decode(said["data"]))
            for each in references_in(export.text):
                try:
                    if isinstance(each, CannotRead):
                        raise each
                    met = shelf.meet(each)
                except CannotRead as fault:
                    faults.append(_fault(fault))
                    continue
                passages = passages_in(f"{met.key}.bib", met.entry) if met.entry else []
                entry = without_passages(met.entry) if passages else met.entry
                told = met._replace(entry=entry)._asdict()
                found.append({**told, "passages": [each._asdict() for each in passages]})
        except CannotRead as fault:
            faults.append(_fault(fault))
        return {"references": found, "faults": faults, **export._asdict()}

    def _second(self, said: Any) -> Any:
        """said: {"key"}, of a report that was read once."""
        return blank_draft(self._session.evidence, said["key"], self._session.claim_file(said["key"]))

    def _compare(self, said: Any) -> Any:
        """said: the draft of a second reading."""
        key = said["second"]
        return compared(key, self._session.claim_file(key), said["claims"])

    def _zip(self, said: Any) -> Any:
        """Both files in one, in base64, as a colleague unpacks them over the evidence."""
        draft = draft_of(said)
        both = zipped((path, text.encode()) for path, text in draft.files.items())
        return {"name": f"{draft.key or 'paper'}.zip", "zip": base64.b64encode(both).decode()}


def _fault(fault: CannotRead) -> dict[str, Any]:
    return {"message": str(fault), "line": fault.line, "column": fault.column}

"""What was found of the numbers of a text: lines to read, or JSON for tools."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Sequence

from .compared import TO_MEND, Checked


def as_text(name: str, found: Sequence[Checked], release: str) -> str:
    """One line a number, what is to be mended with all of its line; the counts at the end."""
    out = []
    for item in found:
        where = f" ({item.page})" if item.page else ""
        out.append(f'{name}, {item.place}: "{item.text}": {item.verdict}: {item.says}{where}')
        if item.verdict in TO_MEND:
            out.append(f"    {item.line}")
    counts = Counter(item.verdict for item in found)
    told = ", ".join(f"{number} {verdict}" for verdict, number in sorted(counts.items()))
    out.append(f"{len(found)} numbers beside release {release}: {told}" if found else "no number that may be a result")
    return "\n".join(out) + "\n"


def as_json(name: str, found: Sequence[Checked], release: str) -> str:
    """The same, one object a number."""
    answer = {
        "file": name,
        "release": release,
        "numbers": [
            {
                "place": item.place, "text": item.text, "line": item.line, "verdict": item.verdict, "says": item.says,
                "ids": list(item.ids), "page": item.page,
            }
            for item in found
        ],
    }  # fmt: skip
    return json.dumps(answer, ensure_ascii=False, indent=1) + "\n"

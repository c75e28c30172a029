"""The name that was surely meant, offered when a reference finds nothing."""

from __future__ import annotations

from collections.abc import Iterable


def did_you_mean(typed: str, choices: Iterable[str]) -> str:
    """ "; did you mean X?" where one known name is close, else ""."""
    import difflib  # only a reference that fails pays for it

    names = {name.casefold(): name for name in choices}
    close = difflib.get_close_matches(typed.casefold(), names, n=1, cutoff=0.7)
    return f"; did you mean {names[close[0]]}?" if close else ""

"""A name that nothing has: the one that was surely meant, or those there are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from ..problems import Position, Problem, error

_MOST = 12
"""Names that one hint lists at most."""


def did_you_mean(typed: str, choices: Iterable[str]) -> str:
    """ "; did you mean X?" where one known name is close, else ""."""
    near = nearest_name(typed, choices)
    return f"; did you mean {near}?" if near else ""


def nearest_name(typed: str, choices: Iterable[str]) -> str:
    """The known name that is close to what was typed, or ""; of a mapping the name of a title that is close."""
    import difflib  # only a reference that fails pays for it

    names = {title.casefold(): name for name, title in choices.items()} if isinstance(choices, Mapping) else {}
    names |= {name.casefold(): name for name in choices}
    close = difflib.get_close_matches(typed.casefold(), names, n=1, cutoff=0.7)
    return names[close[0]] if close else ""


_NONE = "there is none yet: define one, or delete the name"


def misnamed(
    position: Position, rule: str, tells: str, typed: str, choices: Iterable[str], otherwise: str = ""
) -> Problem:
    """The problem of a name that nothing has, with what to type.

    choices: the names there are; as a mapping, each with its title. otherwise: what else would mend it.
    """
    names = list(choices)
    near = nearest_name(typed, choices)
    listed = ", ".join(sorted(names)[:_MOST]) + (", …" if len(names) > _MOST else "")
    mend = f"type {near}" if near else f"there are: {listed}" if names else _NONE
    tail = f"; did you mean {near}?" if near else ""
    return error(position, rule, f"{tells}{tail}", "; or ".join(filter(None, (mend, otherwise))))

"""Small immutable values with named fields: what `typing.NamedTuple` makes, in a fifth of its time.

A check begins with making a hundred and fifty such classes. typing.NamedTuple compiles a function and every annotation
of each, which takes a twentieth of a small check; here the functions of two classes with as many fields are one, and
annotations stay as they are typed. Whoever checks types is told that this is typing.NamedTuple.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache
from operator import itemgetter
from types import FunctionType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from typing import NamedTuple as NamedTuple
else:
    try:  # how collections.namedtuple reads a field: three times as fast as a property
        from _collections import _tuplegetter as _field
    except ImportError:

        def _field(place: int, doc: str) -> property:
            return property(itemgetter(place), doc=doc)

    class _Record(tuple):
        """What all of them have, as `collections.namedtuple` describes it."""

        __slots__ = ()
        _fields: tuple[str, ...] = ()

        @classmethod
        def _make(cls, values: Iterable[Any]) -> _Record:
            made = tuple.__new__(cls, values)
            if len(made) != len(cls._fields):
                raise TypeError(f"Expected {len(cls._fields)} arguments, got {len(made)}")
            return made

        def _replace(self, /, **named: Any) -> _Record:
            made = self._make(map(named.pop, self._fields, self))
            if named:
                raise ValueError(f"Got unexpected field names: {list(named)!r}")
            return made

        def _asdict(self) -> dict[str, Any]:
            return dict(zip(self._fields, self, strict=True))

        def __getnewargs__(self) -> tuple[Any, ...]:
            return tuple(self)

        def __repr__(self) -> str:
            named = (f"{name}={value!r}" for name, value in zip(self._fields, self, strict=True))
            return f"{type(self).__name__}({', '.join(named)})"

    class _MakesRecords(type):
        """Turns a class with annotated fields into a tuple with these names for its places."""

        def __new__(cls, name: str, bases: tuple[type, ...], body: dict[str, Any]) -> type:
            if not bases:
                return type.__new__(cls, name, bases, body)
            fields = tuple(body.get("__annotations__", ()))
            defaults = [body[field] for field in fields if field in body]
            if not fields or any(field not in body for field in fields[len(fields) - len(defaults) :]):
                raise TypeError(f"{name}: a record has fields, and those with a default stand behind those without")
            body.update({field: _field(place, field) for place, field in enumerate(fields)})
            body.update(
                __slots__=(),
                __new__=_constructor(fields, tuple(defaults)),
                __match_args__=fields,
                _fields=fields,
                _field_defaults=dict(zip(fields[len(fields) - len(defaults) :], defaults, strict=True)),
            )
            return type(name, (_Record,), body)

    def _constructor(fields: tuple[str, ...], defaults: tuple[Any, ...]) -> Callable[..., Any]:
        """`__new__` with the fields as its arguments: that of any record with as many, its arguments renamed."""
        like = _constructor_of(len(fields))
        renamed = like.__code__.replace(co_varnames=("_cls", *fields))
        return FunctionType(renamed, like.__globals__, "__new__", defaults)

    @cache
    def _constructor_of(count: int) -> Any:
        values = "".join(f"field{place}, " for place in range(count))
        return eval(f"lambda _cls, {values}: _new(_cls, ({values}))", {"_new": tuple.__new__})

    class NamedTuple(metaclass=_MakesRecords):
        """A class of fields, each with its annotation, is written below this name."""

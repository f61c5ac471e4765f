"""What records have in common: a short ``repr``, ``==`` by content, a hash where there can be one.

A record that holds arrays is equal to another where all of them are, to the last digit, and is not
hashable: what it holds can be as large as a mesh, and no key should cost that much.
"""

import dataclasses
from collections.abc import Iterable, Iterator, Mapping
from typing import TypeVar, cast, dataclass_transform

import numpy as np

LONGEST = 240  # letters of a record's repr, from which fields are left out [-]
WORD = 48  # letters of a text or of one figure within it [-]
FEW = 4  # figures of an array that are shown [-]
HOLDERS = ("_fields", "model_fields_set")  # by which named tuples and models are known

T = TypeVar("T")


@dataclass_transform(
    frozen_default=True, kw_only_default=True, field_specifiers=(dataclasses.field,)
)
def record(cls: type[T]) -> type[T]:
    """Return a class as a frozen dataclass with slots whose ``repr`` is short and ``==`` works."""
    own = vars(cls)
    if "__repr__" not in own:
        type.__setattr__(cls, "__repr__", short)
    type.__setattr__(cls, "__eq__", is_equal)
    type.__setattr__(cls, "__hash__", hashed)
    return dataclasses.dataclass(frozen=True, slots=True, kw_only=True, eq=False)(cls)


def short(self: object) -> str:
    """Return the ``repr`` of a record: its figures, and of what is large only its size.

    >>> short(type("Pair", (tuple,), {"_fields": ("a",), "a": np.zeros((9, 3))})())
    'Pair(a=array(9, 3))'
    """
    return repr_of(type(self).__name__, ((name, getattr(self, name)) for name in _names(self)))


def repr_of(name: str, fields: Iterable[tuple[str, object]]) -> str:
    """Return a name with fields and values, as many as are short.

    >>> repr_of("Path", [("at", np.array([0.0, 1 / 3])), ("name", "down")])
    "Path(at=[0, 0.3333], name='down')"
    """
    parts: list[str] = []
    for key, value in fields:
        if sum(map(len, parts)) > LONGEST - WORD:
            parts.append("…")
            break
        parts.append(f"{key}={_text(value)}"[: WORD + len(key)])
    return f"{name}({', '.join(parts)})"


def is_equal(self: object, other: object) -> bool:
    """Return whether two records are of one kind and hold the same, arrays included."""
    if self is other:
        return True
    if type(self) is not type(other):
        return NotImplemented
    return all(_same(getattr(self, key), getattr(other, key)) for key in _names(self, all_of=True))


def hashed(self: object) -> int:
    """Return the hash of a record.

    Raises:
        TypeError: It holds arrays, so that it has none.
    """
    try:
        return hash(tuple(getattr(self, name) for name in _names(self, all_of=True)))
    except TypeError:
        mend = "take its name or its place as the key"
        raise TypeError(
            f"unhashable: {type(self).__name__} holds arrays or tables; {mend}"
        ) from None


def _names(one: object, *, all_of: bool = False) -> Iterator[str]:
    """Yield the names of a record's fields; those that are shown, or all that are compared."""
    if not dataclasses.is_dataclass(one):
        yield from cast("tuple[str, ...]", getattr(one, "_fields", ()))
        return
    for field in dataclasses.fields(one):
        if field.compare if all_of else field.repr:
            yield field.name


def _same(one: object, other: object) -> bool:
    if isinstance(one, np.ndarray) and isinstance(other, np.ndarray):
        return one.shape == other.shape and bool(np.array_equal(one, other, equal_nan=True))
    if isinstance(one, tuple) and isinstance(other, tuple):
        pair = cast("tuple[tuple[object, ...], tuple[object, ...]]", (one, other))
        return len(pair[0]) == len(pair[1]) and all(map(_same, *pair))
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        a, b = cast("Mapping[object, object]", one), cast("Mapping[object, object]", other)
        return a.keys() == b.keys() and all(_same(a[key], b[key]) for key in a)
    return one == other


def _text(value: object) -> str:
    """Return a value in few letters."""
    if isinstance(value, float):
        return f"{value:.4g}"
    if isinstance(value, np.ndarray):
        few = value.ndim == 1 and value.size <= FEW
        return f"[{', '.join(map(_text, value.tolist()))}]" if few else f"array{value.shape}"
    if isinstance(value, str):
        return repr(value if len(value) < WORD else f"{value[: WORD - 3]}…")
    if isinstance(value, Mapping):
        return f"{{{len(cast('Mapping[object, object]', value))}}}"
    if isinstance(value, tuple) and not hasattr(value, "_fields"):
        held = cast("tuple[object, ...]", value)
        return f"({len(held)} × {type(held[0]).__name__})" if held else "()"
    if dataclasses.is_dataclass(value) or any(hasattr(value, sign) for sign in HOLDERS):
        name = getattr(value, "name", "")
        return f"{type(value).__name__}({name!r})" if name else f"{type(value).__name__}(…)"
    return repr(value)

"""A fact: of what kind it is, and its figures and names; ``text`` has the words for it.

What is found, doubted, asked or advised is a fact wherever it is worked out. No sentence is made
there and none is ever asked what it says: renaming a piece changes nothing but its name, and
another language is one more folder of words.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from trimdive.records import repr_of

Value = object  # of a figure in SI, a name, a truth, another fact, or a tuple of these


@dataclass(frozen=True, slots=True, repr=False)
class Fact:
    """Something that is so, or that is to be done."""

    kind: str  # known to ``text``, such as "tanks-short"
    pairs: tuple[tuple[str, Value], ...]  # its figures [SI] and names, in their order

    @property
    def values(self) -> Mapping[str, Value]:
        """Return its figures and names, by what they are called."""
        return MappingProxyType(dict(self.pairs))

    def __repr__(self) -> str:
        """Return its kind with what it holds, shortly."""
        return repr_of(self.kind, self.pairs)


def fact(kind: str, /, **values: Value) -> Fact:
    """Return a fact.

    Args:
        kind: Of what kind it is; ``text.sentences`` has a function of that kind.
        values: Figures in SI, names, truths, other facts, and tuples of these.

    >>> fact("tanks-short", held=0.001, needed=0.0014)
    tanks-short(held=0.001, needed=0.0014)
    """
    return Fact(kind, tuple(values.items()))


def together(*facts: Fact | None) -> Fact:
    """Return facts that are told one after another; None is left out.

    >>> together(fact("weigh-again"), None).values["facts"]
    (weigh-again(),)
    """
    return fact("together", facts=tuple(one for one in facts if one is not None))

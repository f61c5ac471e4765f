"""What is worked out of a boat when first asked for, once, in whichever units she is shown."""

from collections.abc import Callable
from functools import cached_property
from typing import Generic, Protocol, Self, TypeVar, overload

T = TypeVar("T")


class Shown(Protocol):
    """A boat that may be shown in other units."""

    @property
    def own(self) -> object | None:
        """Return her in her own units, where these are others."""
        ...


class worked(Generic[T]):  # noqa: N801 - written as ``property`` is
    """An answer, worked out when first asked for and kept with the boat in her own units."""

    def __init__(self, work: Callable[..., T]) -> None:
        """Take the work."""
        self._answer = cached_property(work)
        self.__doc__ = work.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        """Keep the answer by its name."""
        self._answer.__set_name__(owner, name)

    @overload
    def __get__(self, her: None, owner: type) -> Self: ...
    @overload
    def __get__(self, her: Shown, owner: type) -> T: ...
    def __get__(self, her: Shown | None, owner: type) -> Self | T:
        """Return the answer; of the same boat in other units it is her own."""
        return self if her is None else self._answer.__get__(her.own or her, owner)

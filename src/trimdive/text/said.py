"""What facts say: one function a kind, entered by ``says``; each lies in ``text/sentences``."""

from collections.abc import Callable
from functools import cache
from importlib import import_module
from pkgutil import iter_modules

from trimdive.fact import Fact
from trimdive.text.say import Say

Words = Callable[..., str]
SAYINGS: dict[str, Words] = {}  # by kind


def says(kind: str) -> Callable[[Words], Words]:
    """Enter a function as the words for a kind of fact.

    It takes how figures are written, and what the fact holds by name; it returns the words.
    """

    def entered(words: Words) -> Words:
        if kind in SAYINGS and SAYINGS[kind] is not words:
            raise ValueError(f"two sayings for {kind!r}; take another word for one of them")
        SAYINGS[kind] = words
        return words

    return entered


@cache
def _all_read() -> None:
    """Read every file of sentences, so that each enters its own."""
    from trimdive.text import sentences

    for file in iter_modules(sentences.__path__):
        import_module(f"{sentences.__name__}.{file.name}")


def is_said(kind: str) -> bool:
    """Return whether there are words for a kind of fact."""
    _all_read()
    return kind in SAYINGS


def said(say: Say, fact: Fact) -> str:
    """Return a fact in words.

    Args:
        say: How figures are written.
        fact: What is so.
    """
    if fact.kind not in SAYINGS:
        _all_read()
    return SAYINGS[fact.kind](say, **fact.values)


@says("together")
def _together(say: Say, facts: tuple[Fact, ...]) -> str:
    return " ".join(said(say, one) for one in facts)

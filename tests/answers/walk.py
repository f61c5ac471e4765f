"""The walk: every boat is worked out once, and each of its figures held against the others."""

from collections import Counter
from dataclasses import dataclass
from functools import cache

from tests.answers.boats import boat, names
from tests.answers.patterns import MATCHED, wanted
from tests.answers.quoted import Quoted, quoted
from tests.answers.served import served
from tests.cli.boats import NAMES


@dataclass(frozen=True, slots=True, kw_only=True)
class Walked:
    """What the walk found in one boat."""

    name: str
    quoted: Quoted

    @property
    def compared(self) -> int:
        """Return how many times a place was held against another."""
        return sum(len(places) - 1 for places in self.quoted.values())

    @property
    def differ(self) -> list[str]:
        """Return the figures that read otherwise in two places."""
        return [
            f"{self.name}: {figure}: {'; '.join(f'{at}: {text}' for at, text in places.items())}"
            for figure, places in self.quoted.items()
            if len(set(places.values())) > 1
        ]


@cache
def walked(name: str) -> Walked:
    """Return what the walk found in a boat, by her name; each is walked once."""
    found = quoted(boat(name))
    for figure, place, text in served(name) if name in NAMES else ():
        found[figure][place] = " ".join(text.split())
    return Walked(name=name, quoted=found)


def in_vain(found: list[Walked]) -> list[str]:
    """Return what was looked for and not met in any boat, and figures that stand nowhere twice."""
    never = sorted(wanted() - set(MATCHED))
    most: Counter[str] = Counter()
    for one in found:
        for figure, places in one.quoted.items():
            most[figure] = max(most[figure], len(places))
    return [*never, *(f"figure {name}" for name, count in most.items() if count < 2)]


def all_walked() -> list[Walked]:
    """Return what the walk found in every boat."""
    return [walked(name) for name in names()]

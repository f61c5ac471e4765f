"""What is asked of ``bench`` and ``tube``, as typed."""

from difflib import get_close_matches
from typing import TYPE_CHECKING

from trimdive.bench import Offer, what_tube
from trimdive.errors import AskError
from trimdive.units import read
from trimdive.water import water

if TYPE_CHECKING:
    from trimdive.assessment import Assessment


def named(her: "Assessment", text: str) -> str:
    """Return the name of a cylinder as the boat has it; "" where none is asked for.

    Raises:
        AskError: She has none of that name.
    """
    names = [vessel.name for vessel in her.boat.cylinders]
    found = next((name for name in names if name.casefold() == text.strip().casefold()), "")
    if text and not found:
        near = get_close_matches(text, names, n=1, cutoff=0.5)
        mend = f"Did you mean '{near[0]}'?" if near else f"She has: {', '.join(names) or 'none'}."
        raise AskError(f"there is no cylinder '{text}'", "--cylinder", mend)
    return found


def asked_tube(
    inside: str, depth: str, material: str, length: str
) -> tuple[tuple[Offer, ...], float, float]:
    """Return the tubes for what was typed, the depth and the bore [m].

    Raises:
        TrimdiveError: Something is no length, or there is no such tube.
    """
    bore = read(inside, "length", None, where="BORE")
    deep = read(depth, "length", None, where="--depth")
    long = read(length, "length", None, where="--length")
    return (
        what_tube(bore, deep, material.strip(), long, water("fresh", 15.0, 0.0).density),
        deep,
        bore,
    )

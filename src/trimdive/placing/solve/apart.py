"""Keeps pieces out of each other's way: two that could meet share the room between them."""

from collections.abc import Sequence
from dataclasses import replace
from math import floor

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.solve.free import GAP
from trimdive.placing.solve.slots import Slot


def boxes(slot: Slot, length: float) -> list[Floats]:
    """Return the boxes of a slot's piece of a length [m], each shape (2, 3) [m]."""
    half = np.array([length, slot.breadth, slot.height]) / 2
    sides = (1.0, -1.0) if slot.pair else (1.0,)
    middles = [slot.place * np.array([1.0, side, 1.0]) for side in sides]
    return [np.stack([middle - half, middle + half]) for middle in middles]


def overlap(one: Floats, other: Floats) -> bool:
    """Return whether two boxes, each shape (2, 3) [m], reach into each other."""
    return bool(((one[0] < other[1] - 1e-6) & (other[0] < one[1] - 1e-6)).all())


def _meet(one: Slot, other: Slot) -> bool:
    return any(overlap(a, b) for a in boxes(one, one.longest) for b in boxes(other, other.longest))


def _cut(slot: Slot, longest: float) -> Slot:
    """Return a slot that is no longer than so long [m], and no shorter than what lies there."""
    longest = max(longest, slot.length(slot.present / slot.step))
    if longest >= slot.longest:
        return slot
    return replace(slot, longest=longest, most=floor(slot.most * longest / slot.longest + 1e-9))


def shared(slots: Sequence[Slot]) -> list[Slot]:
    """Return the slots, none so long that its piece could reach into another's.

    Of two that hold a piece now each keeps its length and half of the gap; an empty slot gives way
    to one that holds a piece, and of two empty ones the later.
    """
    found = list(slots)
    for i in range(len(found)):
        for j in range(i + 1, len(found)):
            one, other = found[i], found[j]
            if not (one.longest and other.longest and _meet(one, other)):
                continue
            if one.path and other.path:
                now = [slot.length(slot.present / slot.step) for slot in (one, other)]
                gap = abs(float(one.place[0] - other.place[0])) - sum(now) / 2 - GAP
                found[i], found[j] = (
                    _cut(slot, long + max(gap, 0.0))
                    for slot, long in zip((one, other), now, strict=True)
                )
            else:
                lost = i if other.path else j
                found[lost] = replace(found[lost], longest=0.0, most=0)
    return [slot for slot in found if slot.path or slot.most >= slot.least]

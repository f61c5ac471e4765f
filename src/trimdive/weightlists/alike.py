"""Rows of a list that may be a thing aboard under another name; and rows of plain lead.

A first boat file guesses what every boat has; a list then brings the same thing by its own name,
and both would count.
"""

import re
from collections.abc import Sequence
from typing import TYPE_CHECKING

from trimdive.fact import fact
from trimdive.weightlists.records import Ask, Item

if TYPE_CHECKING:
    from trimdive.weightlists.parts import Aboard

KIN = (  # words of which any two may name one thing
    frozenset({"accu", "battery", "batteries", "cells", "lipo", "lifepo4", "nimh", "pack"}),
    frozenset({"motor", "motors"}),
    frozenset({"servo", "servos"}),
    frozenset({"receiver", "rx"}),
)
OTHER = frozenset({"board", "bracket", "cable", "charger", "controller", "lead", "mount", "plate",
                   "strap", "tray", "wire", "wires", "wiring"})  # fmt: skip
LEAD = re.compile(
    r"((keel|trim|ballast|fore|forward|after|bow|stern) )*lead"
    r"( (ballast|weight|bar|strip|sheet|shot|ingot|keel)s?)?( (fore|aft|forward))?( \d+)?"
)
SAID = ("yes", "no")


def _words(name: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z0-9]+", name.casefold().replace("li-po", "lipo")))


def _kin(name: str) -> int:
    """Return which words that may name one thing stand in a name, counted from 1; 0 for none."""
    words = _words(name)
    if words & OTHER:
        return 0
    return next((k for k, kin in enumerate(KIN, 1) if words & kin), 0)


def alike(items: Sequence[Item], pieces: "Sequence[Aboard]") -> list[tuple[Item, "Aboard"]]:
    """Return rows that may be a thing aboard whose mass is only guessed, with that thing.

    Args:
        items: Rows that no piece aboard has the name of.
        pieces: Pieces aboard that no row has the name of.
    """
    left = [one for one in pieces if one.kind == "part" and one.known == "guess"]
    found: list[tuple[Item, Aboard]] = []
    for item in items:
        kin = _kin(item.name)
        near = [one for one in left if kin and _kin(one.name) == kin]
        if near:
            best = min(near, key=lambda one: abs((one.mass or 0.0) - item.mass))
            left.remove(best)
            found.append((item, best))
    return found


def same_ask(found: "Sequence[tuple[Item, Aboard]]") -> Ask:
    """Return what is asked of rows that may be a thing aboard."""
    rows = tuple(item.row for item, _ in found)
    names = tuple((item.name, piece.name) for item, piece in found)
    what = fact("rows-like-guesses", rows=rows, names=names)
    return Ask(field="same", what=what, mend=fact("write-name-aboard"), option=fact("type-same"))


def is_lead(item: Item) -> bool:
    """Return whether a row is plain lead, by its group or its name."""
    group = item.words.get("group", "").strip().casefold()
    return group == "lead" or LEAD.fullmatch(item.name.strip().casefold()) is not None

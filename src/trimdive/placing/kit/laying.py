"""How loose pieces lie in their pockets, and whether they lie clear there.

Whether a place is clear is asked of the one check of room in ``clashes``, the same that ``check``
asks, so that no kit lays a piece into what is aboard or into another piece.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trimdive.boatfile import Boat, Foam, Lead
from trimdive.geometry.clashes.scene import Scene
from trimdive.geometry.clashes.shapes import Triple
from trimdive.geometry.clashes.solids import Kind
from trimdive.placing.kit.pockets import Pocket, loose
from trimdive.units import Spread

WEIGHED = Spread(0.005, is_share=True)  # a piece is weighed
BETWEEN = 0.001  # left between two pieces in one pocket [m]
LEAD_BARS = (  # breadth and height of bars, tried in turn [m]
    (0.030, 0.010), (0.020, 0.010), (0.030, 0.006), (0.020, 0.006), (0.030, 0.015),
    (0.015, 0.010), (0.040, 0.005), (0.010, 0.010),
)  # fmt: skip
FOAM_SLABS = (  # breadth (0: a square) and height of slabs, tried in turn [m]
    (0.0, 0.020), (0.0, 0.010), (0.030, 0.020), (0.020, 0.020), (0.020, 0.010), (0.012, 0.012),
    (0.010, 0.006),
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A loose piece, labelled."""

    label: str
    kind: Kind  # lead or foam
    mass: float  # [kg]
    volume: float  # [m³]
    size: Triple  # length, breadth, height as cut [m]


Laid = tuple[Pocket, tuple[Piece, ...]]  # a pocket, and what lies in it at one time


def cut(piece: Piece, breadth: float, height: float) -> Piece:
    """Return a piece with another section; of no breadth a square slab.

    Args:
        piece: The piece.
        breadth: Of its section [m].
        height: Of its section [m].
    """
    side = breadth or (piece.volume / height) ** 0.5
    return replace(piece, size=(piece.volume / side / height, side, height))


def boxes(pocket: Pocket, pieces: Sequence[Piece]) -> Iterator[tuple[Piece, Triple, Triple]]:
    """Yield each piece with middle and size of the box that it lies in; of halves, both [m].

    Lead lies upward from its height in the pocket, foam downward from its own; halved foam is cut
    across, one half to each side.

    Args:
        pocket: Where they lie.
        pieces: What lies there at one time.
    """
    low, top = pocket.lead_z, pocket.foam_z
    for piece in pieces:
        length, breadth, height = piece.size
        if piece.kind == "lead":
            yield piece, (pocket.x, 0.0, low + height / 2), piece.size
            low += height + BETWEEN
            continue
        z, top = top - height / 2, top - height - BETWEEN
        if not pocket.foam_y:
            yield piece, (pocket.x, 0.0, z), piece.size
            continue
        for side in (1, -1):
            yield piece, (pocket.x, side * pocket.foam_y, z), (length / 2, breadth, height)


def is_clear(scene: Scene, laid: Laid) -> bool:
    """Return whether what lies in a pocket lies clear of all aboard and of each other."""
    found = boxes(*laid)
    return scene.is_clear([loose(one.label, one.kind, at, size) for one, at, size in found])


def shaped(
    scene: Scene, pieces: Sequence[Piece], lies: Sequence[Sequence[tuple[Pocket, Sequence[str]]]]
) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """Return the pieces cut so that they lie clear, and what does not: labels with their pocket.

    Args:
        scene: All that is aboard.
        pieces: The pieces, of any section.
        lies: For each combination the pockets with the labels of what lies in them.
    """
    cuts = {"lead": LEAD_BARS, "foam": FOAM_SLABS}
    found: list[Piece] = []
    crowded: list[str] = []
    for kind, sections in cuts.items():
        own = [one for one in pieces if one.kind == kind]
        best: tuple[list[str], list[Piece]] | None = None
        for breadth, height in sections:
            made = [cut(one, breadth, height) for one in own]
            amiss = _amiss(scene, made, lies)
            if best is None or len(amiss) < len(best[0]):
                best = amiss, made
            if not amiss:
                break
        assert best is not None
        crowded += best[0]
        found += best[1]
    return tuple(found), tuple(crowded)


def _amiss(
    scene: Scene, pieces: Sequence[Piece],
    lies: Sequence[Sequence[tuple[Pocket, Sequence[str]]]],
) -> list[str]:  # fmt: skip
    """Return what does not lie clear, by labels and pocket."""
    seen: dict[tuple[str, tuple[str, ...]], bool] = {}
    for one in lies:
        for pocket, labels in one:
            there = tuple(piece for piece in pieces if piece.label in labels)
            key = pocket.name, tuple(piece.label for piece in there)
            if there and key not in seen:
                seen[key] = is_clear(scene, (pocket, there))
    return [f"{' and '.join(labels)} {name}" for (name, labels), clear in seen.items() if not clear]


def put_in(boat: Boat, pocket: Pocket, *pieces: Piece) -> Boat:
    """Return the boat with pieces lying in a pocket."""
    lead: list[Lead] = []
    foam: list[Foam] = []
    for piece, (x, y, z), (length, breadth, height) in boxes(pocket, pieces):
        share = 0.5 if pocket.foam_y and piece.kind == "foam" else 1.0
        fields = {
            "name": f"kit {piece.label}", "shape": "box", "length": length, "breadth": breadth,
            "height": height, "mass": share * piece.mass, "volume": share * piece.volume, "x": x,
            "y": y, "z": z, "known": "weighed", "spread": WEIGHED,
        }  # fmt: skip
        if piece.kind == "lead":
            lead.append(Lead.model_validate(fields))
        else:
            foam.append(Foam.model_validate(fields))
    return boat.model_copy(update={"lead": (*boat.lead, *lead), "foam": (*boat.foam, *foam)})

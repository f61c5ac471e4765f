"""Slots: the places at which lead and foam may lie, each of one cross-section, cut to length.

A piece keeps its cross-section and its middle and is cut longer or shorter, so that mass and
moments grow together, exactly.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import floor, inf

import numpy as np

from trimdive.boatfile import Lead, Part
from trimdive.boatfile.placing import Placing, Pocket
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import reach
from trimdive.geometry.solids.hull import density_of
from trimdive.placing.solve.free import (
    GAP,
    Flags,
    Room,
    box_points,
    is_clear,
    largest_box,
    sections,
)
from trimdive.placing.solve.sums import ABOVE, MASS, SIZE, VOLUME, Her, body_sums, whole

BINS = 40  # that the hull's length is divided into [-]
CELL = 0.0025  # of the grid on which free room is looked for [m]
FINE = 0.006  # of the grid on which a box is looked through [m]
UNDER = 0.002  # foam under the waterline stays so far below it [m]
LEAD_HEIGHT = 1 / 3  # of a new bar, over its breadth [-]
LEAD_BREADTH = 1 / 5  # over the hull's [-]
NARROW = 1 / 3  # a bar narrower than this share of what is wanted is none [-]
SMALLEST_FOAM = 0.010  # neither side of foam is thinner [m]
LONGEST = 0.5  # pieces that lie there grow to this share of her length at most [-]
STRETCH = 4  # a slot for new pieces covers so many parts of her length at most [-]
AS_GOOD = 0.7  # of a section: a longer slot with so much of it is taken [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One place for lead or foam."""

    name: str
    kind: str  # lead or foam
    path: str  # of the piece that lies there now, or "" for none
    present: float  # its mass [kg]
    kept: Floats  # what it adds to the sums, shape (20,) [kg, kg m, m³, m⁴]
    place: Floats  # middle of the piece, of the one to port of a pair, shape (3,) [m]
    breadth: float  # of the cross-section; 0 where a bare point stands for the piece [m]
    height: float  # [m]
    longest: float  # [m]
    pair: bool
    step: float  # mass in one step, of both of a pair [kg]
    density: float  # [kg/m³]
    each: Floats  # what one step adds to the sums, shape (20,) [kg, kg m, m³, m⁴]
    most: int  # steps that fit [-]
    least: int  # steps of the smallest piece [-]
    home: str = ""  # cylinder in which it lies: what goes in displaces nothing

    def length(self, steps: float) -> float:
        """Return how long a piece of so many steps is [m]."""
        section = self.breadth * self.height * (2 if self.pair else 1)
        return steps * self.step / self.density / section if section > 0 else 0.0


def _added(
    mass: float, density: float, place: Floats, pair: bool, half: float, surface: float, *,
    wet: bool = True,
) -> Floats:  # fmt: skip
    """Return what a box of a mass adds to the sums; ``surface`` is the water's height there [m]."""
    found = np.zeros(SIZE)
    middle = place * np.array([1.0, 0.0 if pair else 1.0, 1.0])
    found[MASS] = whole(mass, middle)
    if not wet:
        return found
    volume = mass / density
    found[VOLUME] = whole(volume, middle)
    low, high = place[2] - half, place[2] + half
    out = min(max(high - surface, 0.0), high - low) if high > low else float(high > surface)
    share = out / (high - low) if high > low else out
    up = middle.copy()
    up[2] = high - out / 2 if high > low else middle[2]
    found[ABOVE] = whole(share * volume, up)
    return found


def surface_at(her: Her, x: float) -> float:
    """Return the height of the water meant at a place along her [m]."""
    n, d = her.waterline
    return float((d - n[0] * x) / n[2])


def _slot(
    her: Her, wish: Placing, *, name: str, kind: str, place: Floats, breadth: float, height: float,
    longest: float, pair: bool, density: float, most: float = inf, home: str = "",
) -> Slot:  # fmt: skip
    """Return an empty slot."""
    section = breadth * height * (2 if pair else 1)
    step = wish.lead_step if kind == "lead" else wish.foam_step * section * density
    surface = surface_at(her, float(place[0]))
    least = wish.lead_least if kind == "lead" else wish.foam_least * density
    return Slot(
        name=name,
        kind=kind,
        path="",
        present=0.0,
        kept=np.zeros(SIZE),
        place=place,
        breadth=breadth,
        height=height,
        longest=longest,
        pair=pair,
        step=step,
        density=density,
        each=_added(step, density, place, pair, height / 2, surface, wet=not home),
        most=floor(min(section * longest * density, most) / step + 1e-9),
        least=max(int(np.ceil(least / step - 1e-9)), 1),
        home=home,
    )


def density_for(kind: str) -> float:
    """Return the density of new lead or foam [kg/m³]."""
    material = "lead" if kind == "lead" else "XPS foam"
    return density_of(material, None) or 0.0


def of_pocket(her: Her, wish: Placing, pocket: Pocket) -> Slot:
    """Return the slot of a pocket that the builder declared."""
    low = np.array([pocket.x_aft, pocket.y_starboard, pocket.z_bottom])
    high = np.array([pocket.x_fore, pocket.y_port, pocket.z_top])
    size = high - low
    return _slot(
        her, wish, name=pocket.name, kind=pocket.holds, place=(low + high) / 2,
        breadth=float(size[1]), height=float(size[2]), longest=float(size[0]), pair=pocket.pair,
        density=density_for(pocket.holds), most=pocket.most or inf, home=pocket.inside or "",
    )  # fmt: skip


def _grown(space: Room, place: Floats, half: Floats, pair: bool, longest: float) -> float:
    """Return to what length a piece may grow about its middle before it meets something [m]."""
    there = box_points(place - half, place + half, FINE)
    space = space.without(there)  # what it reaches into already is not measured well enough
    long = float(half[0])
    step = max(longest / 60, 0.002)
    across = np.array([half[1] - GAP / 2, half[2] - GAP / 2])
    across = np.maximum(across, half[1:] * 0.5)
    while 2 * (long + step) <= longest:
        clear = True
        for end in (-1.0, 1.0):
            ends = np.sort(np.array([end * long, end * (long + step)]))
            for side in (1.0, -1.0) if pair else (1.0,):
                middle = place * np.array([1.0, side, 1.0])
                low = middle + np.array([ends[0] + 1e-4, -across[0], -across[1]])
                high = middle + np.array([ends[1], across[0], across[1]])
                clear = clear and is_clear(space, low, high, FINE)
        if not clear:
            break
        long += step
    return 2 * long


def of_piece(her: Her, wish: Placing, space: Room, path: str, piece: Part) -> Slot:
    """Return the slot of a piece that lies there now: it may be cut again, or taken out.

    Args:
        her: The boat.
        wish: How lead and foam are to be placed.
        space: The room without this piece.
        path: Its place in the boat file.
        piece: The piece.
    """
    n, d = her.waterline
    kept = np.zeros(SIZE)
    entry = next(entry for entry in her.masses.entries if entry.path == path)
    kept[MASS] = whole(entry.mass, entry.place)
    for body in her.bodies:
        if body.path == path:
            kept += body_sums(body, n, d)
    half, kind = reach(piece), "lead" if isinstance(piece, Lead) else "foam"
    place = np.array([piece.x, piece.y, piece.z])
    wet, pair = bool(kept[VOLUME][0] > 0), bool(piece.pair)
    density = entry.mass / kept[VOLUME][0] if wet else density_for(kind)
    is_box = half is not None and piece.shape == "box" and wet
    longest = LONGEST * her.floater.length
    name, step = piece.name, wish.lead_step
    if is_box and half is not None:
        grown = _grown(space, place, half, pair, longest)
        breadth, height = 2 * float(half[1]), 2 * float(half[2])
        plain = _slot(
            her, wish, name=name, kind=kind, place=place, breadth=breadth, height=height,
            longest=grown, pair=pair, density=density,
        )  # fmt: skip
        return replace(plain, path=path, present=entry.mass, kept=kept)
    if kind == "foam":
        step = max(entry.mass / 50, 1e-6)
    each = kept * (step / entry.mass) if entry.mass > 0 else kept
    return Slot(
        name=name, kind=kind, path=path, present=entry.mass, kept=kept, place=place, breadth=0.0,
        height=0.0, longest=0.0, pair=pair, step=step, density=density, each=each,
        most=floor(entry.mass / step), least=1,
    )  # fmt: skip


def _bins(her: Her) -> list[tuple[float, float]]:
    low, high = her.hull.envelope.bounds[:, 0]
    edges = np.linspace(low, high, BINS + 1)
    return [(float(a), float(b)) for a, b in pairwise(edges.tolist())]


def at(her: Her, aft: float, fore: float) -> str:
    """Return the middle of two places [m] as the builder measures it."""
    return her.boat.units.write(her.boat.along((aft + fore) / 2), "length", 0)


def _bar(her: Her) -> tuple[float, float]:
    """Return breadth and height of new bars of lead [m]: as those aboard, else by the hull's."""
    halves = [reach(piece) for piece in her.boat.lead if piece.shape == "box"]
    known = [half for half in halves if half is not None]
    if known:
        _, breadth, height = np.median(2 * np.stack(known), axis=0)
        return float(breadth), float(height)
    breadth = float(np.ptp(her.hull.envelope.bounds[:, 1])) * LEAD_BREADTH
    return breadth, breadth * LEAD_HEIGHT


def _spans(her: Her, wish: Placing, space: Room, slot: Callable[..., Slot | None]) -> list[Slot]:
    """Return slots end to end along her, each over as many parts of her length as it fits well.

    A longer slot holds in one piece what would else be several; it is taken where its section is
    not much smaller than that of its first part alone.
    """
    bins = _bins(her)
    found: list[Slot] = []
    k = 0
    while k < len(bins):
        one = slot(her, wish, space, bins[k : k + 1])
        count = 1
        for more in range(STRETCH, 1, -1):
            if one is None or k + more > len(bins):
                continue
            longer = slot(her, wish, space, bins[k : k + more])
            if longer and longer.breadth * longer.height >= AS_GOOD * one.breadth * one.height:
                one, count = longer, more
                break
        found += [one] if one and one.most >= one.least else []
        k += count
    return found


def _stations(ends: Sequence[tuple[float, float]]) -> Floats:
    """Return where a slot over parts of her length is looked through [m]."""
    places = np.array(ends)
    middles = places.mean(axis=1)
    edges = np.append(places[:, 0], places[-1, 1])
    edges[0] += GAP / 2
    edges[-1] -= GAP / 2
    return np.sort(np.concatenate([edges, middles]))


def keel_slots(her: Her, wish: Placing, space: Room) -> list[Slot]:
    """Return slots for lead along the keel inside the skin, as low as a bar will lie."""
    return _spans(her, wish, space, _lowest)


def _lowest(
    her: Her, wish: Placing, space: Room, ends: Sequence[tuple[float, float]]
) -> Slot | None:
    """Return the slot of the lowest bar over parts of her length; None where none will lie."""
    aft, fore = ends[0][0], ends[-1][1]
    breadth, height = _bar(her)
    bottom, top = float(her.hull.envelope.bounds[0, 2]), surface_at(her, (aft + fore) / 2)
    ys = np.arange(0.0, breadth / 2 + CELL, CELL / 2)
    zs = np.arange(bottom, top, CELL / 2)
    if len(zs) < 2:
        return None
    free = np.asarray(sections(space, _stations(ends), ys, zs).all(axis=0))
    rows = max(int(np.ceil((height + GAP) / (CELL / 2))), 1)
    for j in range((len(zs) - rows) // 2):
        wide = free[:, j : j + rows + 1].all(axis=1)
        count = len(ys) if wide.all() else int(np.argmin(wide))
        half = min(float(ys[count - 1]) - GAP / 2, breadth / 2) if count else 0.0
        if 2 * half >= NARROW * breadth:
            middle = np.array([(aft + fore) / 2, 0.0, float(zs[j]) + GAP / 2 + height / 2])
            return _slot(
                her, wish, name=f"lead at {at(her, aft, fore)}", kind="lead", place=middle,
                breadth=2 * half, height=height, longest=fore - aft - GAP, pair=False,
                density=density_for("lead"),
            )  # fmt: skip
    return None


def foam_slots(her: Her, wish: Placing, space: Room, *, over: bool = False) -> list[Slot]:
    """Return slots for foam, the largest free box in each part of her length.

    Args:
        her: The boat.
        wish: How foam is cut.
        space: The room.
        over: Above the waterline instead of under it.
    """
    return _spans(her, wish, space, _above if over else _below)


def _below(
    her: Her, wish: Placing, space: Room, ends: Sequence[tuple[float, float]]
) -> Slot | None:
    """Return the slot of the largest foam under the waterline over parts of her length."""
    low = float(her.hull.envelope.bounds[0, 2])
    level = min(surface_at(her, x) for x in (ends[0][0], ends[-1][1]))
    zs = np.arange(level - UNDER, low, -CELL)[::-1]
    return _foam(her, wish, space, ends, zs, "")


def _above(
    her: Her, wish: Placing, space: Room, ends: Sequence[tuple[float, float]]
) -> Slot | None:
    """Return the slot of the largest foam above the waterline over parts of her length."""
    high = float(her.hull.envelope.bounds[1, 2])
    level = max(surface_at(her, x) for x in (ends[0][0], ends[-1][1]))
    return _foam(her, wish, space, ends, np.arange(level + UNDER, high, CELL), " above")


def _foam(
    her: Her, wish: Placing, space: Room, ends: Sequence[tuple[float, float]], zs: Floats, more: str
) -> Slot | None:
    ys = np.arange(0.0, float(her.hull.envelope.bounds[1, 1]), CELL)
    if len(zs) < 2:
        return None
    free = np.asarray(sections(space, _stations(ends), ys, zs).all(axis=0))
    span = (ends[0][0], ends[-1][1])
    return _largest(her, wish, free, (ys, zs), span, f"foam at {at(her, *span)}{more}")


def _largest(
    her: Her, wish: Placing, free: Flags, grid: tuple[Floats, Floats], ends: tuple[float, float],
    name: str,
) -> Slot | None:  # fmt: skip
    """Return the slot of the largest free box, its breadth in whole sheets; None: none fits."""
    ys, zs = grid
    i0, i1, j0, j1 = largest_box(free)
    if i1 == i0:
        return None
    middle = i0 == 0  # it reaches over the middle line: one piece instead of a pair
    inner, outer = float(ys[i0]) + (0 if middle else GAP / 2), float(ys[i1]) - GAP / 2
    wide = (2 * outer if middle else outer - inner) + 1e-9
    breadth = floor(wide / wish.sheet) * wish.sheet
    height = float(zs[j1] - zs[j0]) - GAP
    if breadth < SMALLEST_FOAM or height < SMALLEST_FOAM:
        return None
    y = 0.0 if middle else outer - breadth / 2
    return _slot(
        her, wish, name=name, kind="foam",
        place=np.array([(ends[0] + ends[1]) / 2, y, float(zs[j1]) - GAP / 2 - height / 2]),
        breadth=breadth, height=height, longest=ends[1] - ends[0] - GAP, pair=not middle,
        density=density_for("foam"),
    )  # fmt: skip


def pieces_of(her: Her, wish: Placing) -> list[tuple[str, Part]]:
    """Return the pieces of lead and foam that may be cut again, with their paths."""
    lists: Sequence[tuple[str, str, Sequence[Part]]] = (
        ("lead", wish.lead, her.boat.lead),
        ("foam", wish.foam, her.boat.foam),
    )
    return [
        (f"{kind}[{i}]", piece)
        for kind, how, pieces in lists
        if how == "anew"
        for i, piece in enumerate(pieces, 1)
        if piece.aboard and (piece.mass or 0.0) >= 0
    ]

"""From what was marked on a photograph to what is known of it; what cannot be is refused."""

import re
from itertools import combinations

import numpy as np

from trimdive.boatfile import Boat
from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.plans.marks import KNOWN, Marks
from trimdive.plans.sheet import refuse_short
from trimdive.trials.photographs.camera import (
    AROUND,
    DOWN,
    FAR,
    RIGHT,
    SIZE,
    Frame,
    axes,
    seen,
    stands,
)
from trimdive.trials.photographs.problem import Spot, View
from trimdive.trials.photographs.side import Side
from trimdive.uncertainty import WIDE, reading_half
from trimdive.units import read

LEAST_CLICKS, LEAST_POINTS = 2, 2
BEYOND = 0.03  # a point may lie so far beyond her ends, as a share of her length [-]
ABOVE_HER = 0.5  # or above her highest place, as a share of her height: a mast [-]
OUT = 1.3  # or farther out than she is broad, as a share of her half-breadth [-]
NEAR = 0.004  # points that are less apart on her are one [m]
WRONG = 0.12  # a waterline so far off her, as a share of her height, is clicked wrong [-]
END = 0.7  # sine of the angle from ahead, below which she is seen from an end [-]
SIDES = re.compile(r"\b(port|starboard)\b", re.IGNORECASE)


def points_of(marks: Marks) -> tuple[str, ...]:
    """Return the points that are clicked and have a place along her and a height."""
    return tuple(key for key in KNOWN if is_told(marks, key))


def is_told(marks: Marks, key: str) -> bool:
    """Return whether a point is clicked, and said where it is."""
    return marks.is_whole(key) and bool(marks.said(f"{key}-x") and marks.said(f"{key}-z"))


def view_of(marks: Marks, size: tuple[int, int], focal: float, boat: Boat, side: Side) -> View:
    """Return what is known of a picture by what was marked on it.

    Args:
        marks: What was marked and typed.
        size: Width and height of the picture in pixels.
        focal: Focal length in pixels, 0 where the file does not say it [-].
        boat: For her units, and the end that is measured from.
        side: Her hull.

    Raises:
        TrimdiveError: Marks are missing, lie upon each other, or cannot be on her.
    """
    keys = points_of(marks)
    clicks = np.array([one.at for one in marks.of("waterline")], dtype=np.float64).reshape(-1, 2)
    if len(keys) < LEAST_POINTS:
        what = f"{len(keys)} known points are marked, and two are needed at least"
        mend = "Click a place whose distance along her and height you know, and enter both."
        raise PlanError(what, "point-1", mend)
    for one, other in combinations(keys, 2):
        refuse_short(marks.of(one)[0].at, marks.of(other)[0].at)
    if len(clicks) < LEAST_CLICKS:
        what = "the waterline is not clicked yet"
        raise PlanError(what, "waterline", "Click along it where the water meets the hull.")
    off = _off(marks, boat)
    around, toward = _around(marks, keys, boat, side)
    places = [_place(marks, key, boat, side, toward, clicks) for key in keys]
    _refuse_one(keys, places)
    spots = tuple(
        Spot(at=marks.of(key)[0].at, place=place, off=(off, off, off))
        for key, place in zip(keys, places, strict=True)
    )
    about = np.mean(places, axis=0)
    frame = Frame(about=(float(about[0]), float(about[1]), float(about[2])), size=size)
    skin = reading_half("skin") / WIDE
    return View(
        frame=frame, spots=spots, clicks=clicks, side=side, around=around, focal=focal, skin=skin
    )


def _off(marks: Marks, boat: Boat) -> float:
    """Return the standard deviation of places of points [m].

    Raises:
        TrimdiveError: What was typed is no length, or none above zero.
    """
    text = marks.said("known").lstrip("± +-/")
    half = read(text, "length", boat.units.length, where="known") if text else reading_half("point")
    if half <= 0.0:
        raise PlanError("points are not known exactly", "known", "Enter how far off, as 1 mm.")
    return half / WIDE


def _length(marks: Marks, key: str, boat: Boat) -> float:
    """Return a figure of a point as it was typed [m].

    Raises:
        TrimdiveError: It is no length.
    """
    text = marks.said(key).strip()
    return 0.0 if text == "0" else read(text, "length", boat.units.length, where=key)


def _around(
    marks: Marks, keys: tuple[str, ...], boat: Boat, side: Side
) -> tuple[tuple[float, ...], float]:
    """Return from where she is seen [rad], and which side is to the right from an end [-].

    From the side she is seen from port where her bow is to the left; points say it.
    """
    shows = marks.said("shows")
    if shows != "side":
        return ((0.0,), 1.0) if shows == "bow" else ((np.pi,), -1.0)
    x = np.array([boat.along(_length(marks, f"{key}-x", boat)) for key in keys])
    right = np.array([marks.of(key)[0].at[0] for key in keys])
    out, across = x - x.mean(), right - right.mean()
    if np.abs(out).max() < BEYOND * side.length:
        return (np.pi / 2.0, -np.pi / 2.0), 0.0
    port = float(out @ across) < 0.0
    return (np.pi / 2.0 if port else -np.pi / 2.0,), 0.0


def _place(
    marks: Marks, key: str, boat: Boat, side: Side, toward: float, clicks: Floats
) -> tuple[float, float, float]:
    """Return where a point lies on her [m].

    Raises:
        TrimdiveError: What was typed is no length, or lies farther than the hull.
    """
    x, z = boat.along(_length(marks, f"{key}-x", boat)), _length(marks, f"{key}-z", boat)
    low, high = side.bounds
    write = boat.units.write
    if not low[0] - BEYOND * side.length <= x <= high[0] + BEYOND * side.length:
        far = write(max(low[0] - x, x - high[0]), "length")
        what = f"it lies {far} beyond the end of the hull"
        raise PlanError(what, f"{key}-x", f"Enter it from the {boat.entered_from}.")
    if not low[2] - NEAR <= z <= high[2] + ABOVE_HER * side.height:
        what = f"a height of {write(z, 'length')} is no place on her"
        most = write(float(high[2]), "length")
        raise PlanError(what, f"{key}-z", f"Enter it above the keel line; she is {most} high.")
    text = marks.said(f"{key}-y")
    if not text:
        skin = side.out(x, z)
        if toward:
            right = marks.of(key)[0].at[0] > clicks[:, 0].mean()
            return x, (toward if right else -toward) * skin, z
        return x, _near_side(marks, boat, side) * skin, z
    found = SIDES.search(text)
    plain = SIDES.sub("", text).strip()
    y = 0.0 if plain == "0" else read(plain, "length", boat.units.length, where=f"{key}-y")
    y = -y if found and found[1].lower() == "starboard" else y
    if abs(y) > OUT * high[1]:
        what = f"{write(abs(y), 'length')} out is farther than she is broad"
        mend = f"Enter it from her middle line; she is {write(float(high[1]), 'length')} to a side."
        raise PlanError(what, f"{key}-y", mend)
    return x, y, z


def _near_side(marks: Marks, boat: Boat, side: Side) -> float:
    """Return 1 where her port side is seen, −1 for starboard, 0 where that is open [-]."""
    around, _ = _around(marks, points_of(marks), boat, side)
    return float(np.sign(np.sin(around[0]))) if len(around) == 1 else 0.0


def _refuse_one(keys: tuple[str, ...], places: list[tuple[float, float, float]]) -> None:
    """Refuse points that have one place.

    Raises:
        PlanError: Two of them have.
    """
    for (key, one), (_, other) in combinations(zip(keys, places, strict=True), 2):
        if np.linalg.norm(np.subtract(one, other)) < NEAR:
            what = "two points have one place on her"
            raise PlanError(what, f"{key}-x", "Enter for each where it is; take them far apart.")


def refuse_off_her(view: View, camera: Floats, boat: Boat) -> None:
    """Refuse a waterline that is clicked where she is not.

    Args:
        view: What was marked.
        camera: As the points alone have it, shape (10,) [-].
        boat: For her units.

    Raises:
        PlanError: It is clicked under the keel, or above all of her.
    """
    (low, high), margin = view.side.bounds[:, 2].tolist(), WRONG * view.side.height
    if abs(np.sin(camera[AROUND])) > END:
        height = _heights(view, camera)
        under, above = low - float(height.min()), float(height.max()) - high
    else:
        ends = [(float(x), 0.0, z) for x in view.side.bounds[:, 0] for z in (low, high)]
        down = seen(view.frame, camera, np.array(ends))[:, 1].reshape(2, 2)
        worth = float(np.exp(-camera[SIZE]))
        under = worth * float(view.clicks[:, 1].max() - down[:, 0].max())
        above = worth * float(down[:, 1].min() - view.clicks[:, 1].min())
    if under > margin:
        what = f"the waterline is clicked {boat.units.write(under, 'length')} under her keel"
    elif above > margin:
        what = f"the waterline is clicked {boat.units.write(above, 'length')} above her"
    else:
        return
    mend = "Click where the water meets the hull; see that the heights of the points are right."
    raise PlanError(what, "waterline", mend)


def _heights(view: View, camera: Floats) -> Floats:
    """Return how high clicks lie on her middle plane, seen from the side, shape (n,) [m]."""
    towards, at, frame = axes(camera), stands(view.frame, camera), view.frame
    focal = float(np.exp(camera[SIZE] + camera[FAR]))
    flat = (view.clicks - frame.middle - frame.reach * camera[[RIGHT, DOWN]]) / focal
    ways = np.column_stack([flat, np.ones(len(flat))]) @ towards
    return at[2] - at[1] / ways[:, 1] * ways[:, 2]

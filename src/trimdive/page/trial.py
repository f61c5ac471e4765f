"""What she does with a thing held somewhere else: told while it is dragged, before it is put."""

from dataclasses import replace
from math import degrees
from typing import TYPE_CHECKING

import numpy as np

from trimdive.boatfile.ref import ref
from trimdive.errors import BoatFileError
from trimdive.hydrostatics.equilibrium import rest, state
from trimdive.hydrostatics.equilibrium.named import lies
from trimdive.page.done import carried_words
from trimdive.page.large import MINUS, larges
from trimdive.page.moving import ALONG, FINE, UP, Held, Stop, edits, gone, held, ways
from trimdive.page.track import SINKS, lie
from trimdive.page.views import lowest_filling
from trimdive.pictures.drawings.view import MM
from trimdive.pictures.drawings.words import state_words
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.findings import Edit
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.page.desk import Slider

View = dict[str, object]
STAYS = "Move it another way."
SNUG = 1e-3  # nearer to the wall all round than this it fills the bore [m]
NEAR = 0.25  # a neighbour farther away than this is not told [m]
SEEN = 5e-4  # a smaller gap is not drawn [m]


def shift_to(thing: Held, x: float | None, z: float | None) -> "Floats":
    """Return the shift along x and z that brings the middle of a thing to a place [m]."""
    dx = 0.0 if x is None else x - float(thing.place[0])
    dz = 0.0 if z is None else z - float(thing.place[2])
    return np.array([dx, dz])


def in_hand(her: "Assessment", path: str, *, alone: bool = False) -> View:
    """Return what the browser needs of a thing that is picked up [mm]."""
    thing = held(her, path, alone=alone)
    return {
        "path": path,
        "along": list(thing.along),
        "x": round(MM * float(thing.place[0]), 2),
        "z": round(MM * float(thing.place[2]), 2),
        **around(her, thing),
    }


def _place(her: "Assessment", thing: Held) -> View:
    """Return in words where the middle of a thing is, along and high."""
    write = her.boat.units.write
    return {
        "at": write(float(thing.place[0]), "length"),
        "high": write(float(thing.place[2]), "length"),
    }


def around(her: "Assessment", thing: Held) -> View:
    """Return how far a thing is from what is next to it, in words and as dimension lines."""
    write, gaps = her.boat.units.write, _gaps(her, thing)
    near = [f"{way} {write(stop.gap, 'length')} to {stop.what}" for way, stop, _ in gaps]
    return {"near": near, "gaps": _lines(her, thing, gaps)}


def _lines(her: "Assessment", thing: Held, gaps: list[tuple[str, Stop, int]]) -> list[View]:
    """Return gaps as lines in the side view: x and z of both ends [mm], and how long in words."""
    middle = (thing.low + thing.high) / 2
    found: list[View] = []
    for way, stop, axis in (one for one in gaps if one[1].gap >= SEEN):
        sign = 1.0 if way in ("forward", "above") else -1.0
        start = middle.copy()
        start[axis] = (thing.high if sign > 0 else thing.low)[axis]
        end = start.copy()
        end[axis] += sign * stop.gap
        found.append(
            {
                "start": {"x": round(MM * float(start[0]), 1), "z": round(MM * float(start[2]), 1)},
                "end": {"x": round(MM * float(end[0]), 1), "z": round(MM * float(end[2]), 1)},
                "says": her.boat.units.write(stop.gap, "length"),
            }
        )
    return found


def _gaps(her: "Assessment", thing: Held) -> list[tuple[str, Stop, int]]:
    """Return what is told of gaps round a thing: which way, where it stops, along which axis."""
    along, upward = ways(her, thing, NEAR + SEEN)
    every = [
        ("aft", along.back, ALONG),
        ("forward", along.on, ALONG),
        ("above", upward.on, UP),
        ("below", upward.back, UP),
    ]
    return [one for one in every if _is_shown(one[1])]


def _is_shown(stop: Stop) -> bool:
    fits = stop.is_wall and stop.gap < SNUG
    return bool(stop.what) and stop.gap <= NEAR and not fits


def trial(
    her: "Assessment", path: str, x: float | None, z: float | None, slider: "Slider",
    *, alone: bool = False,
) -> View:  # fmt: skip
    """Return what she does with a thing moved so that its middle is at a place, as far as it goes.

    Args:
        her: The boat as she is.
        path: The thing, such as "tank[1]".
        x: Where its middle is to be along the boat [m]; None: where it is.
        z: And how high [m]; None: as it is.
        slider: Where the slider stands.
        alone: What goes with it stays where it is.

    Raises:
        TrimdiveError: There is no such thing, or she cannot be let go with it there.
    """
    thing = held(her, path, alone=alone)
    shift, stopped = gone(her, thing, shift_to(thing, x, z))
    then = her.edited(edits(her, thing, shift))
    moved = np.array([shift[0], 0.0, shift[1]])
    there = replace(
        thing, place=thing.place + moved, low=thing.low + moved, high=thing.high + moved
    )
    return {
        "x": round(MM * float(there.place[0]), 2),
        "z": round(MM * float(there.place[2]), 2),
        "shift": {"x": round(MM * float(shift[0]), 2), "z": round(MM * float(shift[1]), 2)},
        **_place(her, there),
        "stopped": stopped,
        **around(her, there),
        "rows": _rows(her, then),
        "curve": {
            "filling": [round(one.filling, 4) for one in then.dive],
            "trim": [round(degrees(one.state.trim_angle), 2) for one in then.dive],
        },
        **_state(then, slider),
    }


def _rows(her: "Assessment", then: "Assessment") -> list[dict[str, str]]:
    """Return figures as they are and as they would be, in words."""
    return [
        {"name": name, "now": now, "then": later}
        for (name, now), (_, later) in zip(_figures(her), _figures(then), strict=True)
    ]


def _figures(her: "Assessment") -> list[tuple[str, str]]:
    write = her.boat.units.write
    found = [("on the surface", lies(her.boat, her.floater, her.surfaced))]
    if her.boat.tanks:
        found.append((her.lowest_name, lies(her.boat, her.floater, her.lowest)))
    if her.boat.waterline is not None:
        found.append(("litres needed", write(her.need.volume, "volume")))
        if her.boat.tanks:
            off = her.need.offset
            way = "" if abs(off) < 5e-5 else " forward" if off > 0 else " aft"
            found.append(("tank water too far", write(abs(off), "length") + way))
    found.append((f"BG, {her.lowest_name}", write(her.lowest.bg, "length").replace("-", MINUS)))
    return found


def _state(her: "Assessment", slider: "Slider") -> View:
    """Return how she lies at the slider, by the nearest even moment of the dive, and in words."""
    found, filling, sunk = her.surfaced, 1.0, 0.0
    if her.boat.tanks:
        filling = lowest_filling(her) if slider.filling is None else slider.filling
        under = [one.filling for one in her.dive if one.state.rest.under]
        sunk = (filling - min(under)) / SINKS if under else 0.0
        start = min(her.dive, key=lambda one: abs(one.filling - filling)).state.rest
        found = state(her.floater, rest(her.floater, her.path.at(filling), start=start))
    return {
        "lie": lie(her, found, filling, min(max(sunk, 0.0), 1.0)),
        "words": state_words(her, found),
        "figures": larges(her, found, is_certain=False),
    }


def move(
    her: "Assessment", path: str, x: float | None, z: float | None, *, alone: bool = False
) -> tuple[str, tuple["Edit", ...]]:
    """Return a move as it is put: what was done in words, and its changes.

    Raises:
        BoatFileError: There is no such thing, or it does not move at all.
    """
    thing = held(her, path, alone=alone)
    shift, stopped = gone(her, thing, shift_to(thing, x, z))
    write = her.boat.units.write
    ways_of = (("aft", "forward"), ("down", "up"))
    words = [
        f"{write(abs(far), 'length')} {names[far > 0]}"
        for far, names in zip(map(float, shift), ways_of, strict=True)
        if abs(far) > FINE / 2
    ]
    if not words:
        where = f": {stopped} is in its way" if stopped else ""
        raise BoatFileError(f"it stays where it is{where}", thing.name, STAYS)
    until = f", as far as {stopped}" if stopped else ""
    more = carried_words(ref(path).table, len(thing.along) - 1)
    return f"{thing.name} moved {' and '.join(words)}{until}{more}.", edits(her, thing, shift)


def entered_place(her: "Assessment", path: str, typed: str, end: str) -> float:
    """Return where the middle of a thing is when its middle or one of its ends is typed [m].

    Args:
        her: The boat.
        path: The thing.
        typed: A place as the boat measures, such as "1520 mm".
        end: "middle", "after end" or "fore end".

    Raises:
        TrimdiveError: It is no length, or there is no such thing.
    """
    boat, thing = her.boat, held(her, path)
    x = boat.along(read(typed, "length", boat.units.own.get("length"), where=thing.name))
    if end == "after end":
        return x + float(thing.place[0] - thing.low[0])
    return x - float(thing.high[0] - thing.place[0]) if end == "fore end" else x

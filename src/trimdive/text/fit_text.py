"""``fit``: what comes out, the narrowest gaps, and the largest cylinder, as text and JSON."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

import numpy as np

from trimdive.findings import fit_findings, limit_of
from trimdive.findings.getting_out import frees, stays
from trimdive.fit.gaps import MOVING
from trimdive.fit.hatches import in_order
from trimdive.fit.inside import LEAST, by_height, goes_in, largest
from trimdive.fit.saddles import THICK
from trimdive.text import words
from trimdive.text.documents import common, found_document
from trimdive.text.found import mend, what
from trimdive.text.layout import Block, Cells, Document, heading, labelled, line, table
from trimdive.text.said import said
from trimdive.text.say import Say, listed
from trimdive.text.sentence import capital
from trimdive.text.sentences.fit_found import once

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.fit.fitted import Fit
    from trimdive.fit.gaps import Beside
    from trimdive.fit.out import Out
    from trimdive.geometry.lines.mesh import Floats

FEW = 12  # gaps that are told [-]
LITTLE = 0.0015  # a move that is less is not told [m]
TURN = 0.02  # a turn that is less is not told [rad]
NOTHING = 5e-5  # a gap less wide is none [m]
PLACES = 8  # parts of her length, between which tubes are told [-]
HEIGHTS = 14  # most steps of height at which they are [-]
STEPS = (0.005, 0.01, 0.02, 0.025, 0.05, 0.1)  # of height [m]


def fit_text(her: "Assessment", *, every: bool = False) -> Iterator[Block]:
    """Yield what ``fit`` prints.

    Args:
        her: The boat.
        every: Whether every gap is told, not only the narrowest.
    """
    yield line(words.title(her))
    yield from _outs(Say(her.boat), her.fit.outs)
    yield from room_text(her, her.fit, every=every)


def room_text(her: "Assessment", found: "Fit", *, every: bool = False) -> Iterator[Block]:
    """Yield gaps, the largest cylinders and the room that is left.

    Args:
        her: The boat.
        found: How things fit.
        every: Whether every gap is told, not only the narrowest.
    """
    say = Say(her.boat)
    yield heading("Narrowest gaps")
    told = found.gaps if every else [one for one in found.gaps if not lies_on_skin(one)][:FEW]
    head = ["thing", "gap", "to", f"from {her.boat.entered_from}", "across", "up"]
    yield table(head, (_gap(say, one) for one in told), right=(1, 3, 5))
    if len(told) < len(found.gaps):
        rest = f"{len(found.gaps) - len(told)} more are wider, or of lead and foam to the skin."
        yield line(rest, typed="--all shows them.")
    narrow = [one for one in fit_findings(her.boat, found) if one.key.startswith("gap-")]
    yield from (line(f"{capital(what(her.boat, one))}. {mend(her.boat, one)}") for one in narrow)
    yield from _room_along(say, found)


def _room_along(say: Say, found: "Fit") -> Iterator[Block]:
    """Yield the largest cylinders and tubes, and the room that is left."""
    wanted = limit_of("gap-cylinder", say.boat).value
    least = say.length(wanted)
    yield heading(f"Largest cylinder on the middle line, {least} clear all round")
    head = ["length", "outside", "middle", "axis"]
    rows = (
        [say.length(one.length), say.length(one.diameter), say.place(one.x), say.length(one.z)]
        for one in found.largest
    )
    yield table(head, rows, right=(0, 1, 2, 3))
    yield line("In the hull with nothing else in it; the axis is measured up from the keel line.")
    yield from _tubes(say, found, wanted)
    yield heading("Room left")
    yield line(f"Room that nothing takes up: {say.volume(found.left)} inside the skin.")
    yield from _stowage(say, found)
    yield from _saddles(say, found)


def _tubes(say: Say, found: "Fit", gap: float) -> Iterator[Block]:
    """Yield the largest tube at each place along her and each height of its axis."""
    x, z = places_along(found), heights_up(found, gap)
    if not len(z):
        return
    across = by_height(found.room, gap, x, z)
    yield heading("Largest tube at each place along her and height of its axis")
    order = np.argsort([say.boat.along(float(at)) for at in x])
    head = ["axis", *(say.length(say.boat.along(float(at))) for at in x[order])]
    rows = [
        [say.length(float(up)), *(say.length(one) if one else "–" for one in row[order].tolist())]
        for up, row in zip(z[::-1], across.T[::-1], strict=True)
    ]
    yield table(head, rows, right=range(len(head)), gap=1)
    yield line(
        f"Outside diameters, {say.length(gap)} clear all round; the places are from the "
        f"{say.boat.entered_from}. A long tube has the least of those over its length."
    )


def places_along(found: "Fit") -> "Floats":
    """Return the places along her for which tubes are told, shape (n,) [m]."""
    x = found.room.x
    return x[0] + (x[-1] - x[0]) * np.arange(1, PLACES) / PLACES


def heights_up(found: "Fit", gap: float) -> "Floats":
    """Return the heights of an axis for which tubes are told, shape (m,) [m]."""
    room, z = found.room, found.room.z
    some = np.flatnonzero((room.radius > gap + LEAST / 2).any(axis=0))
    if not len(some):
        return z[:0]
    low, high = float(z[some[0]]), float(z[some[-1]])
    step = next((one for one in STEPS if (high - low) / one <= HEIGHTS), STEPS[-1])
    return step * np.arange(np.ceil(low / step), np.floor(high / step) + 1)


def _stowage(say: Say, found: "Fit") -> Iterator[Block]:
    """Yield how much foam and lead there is still room for."""
    cuts = found.sections
    if say.boat.waterline is not None:
        yield line(
            f"For foam, from the highest thing of each section up to the waterline: "
            f"{say.volume(cuts.foam_room)}."
        )
    yield line(f"For lead, below the lowest thing of each section: {say.volume(cuts.lead_room)}.")
    yield line(
        "Lead and foam aboard take up their room. Where nothing lies, foam may begin and lead end "
        "at half the depth of water."
    )


def _saddles(say: Say, found: "Fit") -> Iterator[Block]:
    """Yield where the saddles of the cylinders stand, and how large each is cut."""
    if not found.saddles:
        return
    yield heading("Saddles, two to a cylinder")
    head = [
        "under",
        f"from {say.boat.entered_from}",
        "breadth",
        "height",
        "cut-out",
        "to notch over",
    ]
    rows = (
        [
            one.name,
            say.length(say.boat.along(one.x)),
            say.length(one.breadth),
            say.length(one.height),
            say.length(one.cut),
            listed(one.in_way) or "–",
        ]
        for one in found.saddles
    )
    yield table(head, rows, right=(1, 2, 3, 4))
    yield line(
        f"Plates of {say.length(THICK)}, near the quarter points of each cylinder, where nothing "
        "else stands in the way: as broad as the hull is inside at the height of the axis, and "
        "from the skin up to it. Take the shape from the hull, and cut limber notches at the "
        "bottom and vent notches at the upper corners, so that water and air get past."
    )


def lies_on_skin(one: "Beside") -> bool:
    """Return whether a gap is one of lead or foam to the skin, on which they mostly lie."""
    return one.to == "skin" and one.kind in ("lead", "foam")


def tube_in(her: "Assessment", length: float, outside: float) -> Iterator[Block]:
    """Yield where a tube goes into the empty hull on the middle line.

    Args:
        her: The boat.
        length: Of the tube with its caps [m].
        outside: Its diameter [m].
    """
    say = Say(her.boat)
    least = limit_of("gap-cylinder", her.boat).value
    found = goes_in(her.fit_room, length, outside, least)
    tube = f"A tube {say.length(outside)} outside and {say.length(length)} long"
    yield line(words.title(her))
    if found is None:
        yield line(f"{tube} goes in nowhere on the middle line.")
        if best := largest(her.fit_room, length, least):
            yield line(f"So long, one of at most {say.length(best.diameter)} outside goes in.")
        return
    yield line(
        f"{tube} goes in. Most room, {say.length(found.clear)} all round, with its middle "
        f"{say.place(found.x)} and its axis {say.length(found.z)} above the keel line."
    )
    aft, fore = sorted((say.boat.along(found.aft), say.boat.along(found.fore)))
    yield line(
        f"At that height its middle may lie from {say.length(aft)} to {say.length(fore)} from the "
        f"{her.boat.entered_from}; at that place its axis from {say.length(found.low)} to "
        f"{say.length(found.high)} up."
    )
    yield line(f"In the hull with nothing else in it, {say.length(least)} clear at the least.")


def _outs(say: Say, outs: "tuple[Out, ...]") -> Iterator[Block]:
    """Yield whether each large thing comes out."""
    yield heading("Does it come out?")
    hatches = say.boat.hatches
    if not hatches:
        yield line("No hatch is entered: enter what opens, and each large thing is tried.")
        return
    named = [f"{one.name}{' (with a tool)' if one.tools else ''}" for one in in_order(hatches)]
    yield line(f"Tried with {', then '.join(named)} open.")
    if not outs:
        yield line("Nothing large lies in the hull.")
    yield labelled((f"{one.name}:", out_words(say, one)) for one in outs)


def out_words(say: Say, one: "Out") -> str:
    """Return whether a thing comes out, and how or why not, as a sentence."""
    if one.way is not None:
        return f"comes out{once(one.first)}: {way_words(say, one.way.poses)}."
    why = said(say, stays(one)).removeprefix(f"{one.name} ")
    return f"{why}. {said(say, frees(one))}"


def way_words(say: Say, poses: "Floats") -> str:
    """Return a way out leg by leg: "lift 30 mm, slide 24 mm aft".

    Args:
        say: For whom.
        poses: Shift along, across and up, pitch and roll, shape (n, 5) [m, rad].
    """
    legs = [_leg(say, step) for step in np.diff(poses, axis=0)]
    return ", then ".join(leg for leg in legs if leg) or "it lies free"


def _leg(say: Say, step: "Floats") -> str:
    """Return one leg of a way in words."""
    along, across, up, pitch, roll = step.tolist()
    told: list[str] = []
    if abs(up) > LITTLE:
        told.append(f"{'lift' if up > 0 else 'lower'} {say.length(abs(up))}")
    if abs(along) > LITTLE:
        told.append(f"slide {say.along(along)}")
    if abs(across) > LITTLE:
        told.append(f"move {say.length(abs(across))} to {'port' if across > 0 else 'starboard'}")
    if abs(pitch) > TURN:
        end = "fore" if pitch > 0 else "after"
        told.append(f"tilt its {end} end up by {say.angle(abs(pitch))}")
    if abs(roll) > TURN:
        told.append(f"turn it {say.angle(abs(roll))} about its length")
    return " and ".join(told)


def _gap(say: Say, one: "Beside") -> Cells:
    """Return a gap as a row."""
    width = "touches" if one.width < NOTHING else say.length(one.width)
    x, y, z = one.place
    way = "port" if y > 0 else "starboard"
    side = "middle" if abs(y) < LITTLE else f"{say.length(abs(y))} {way}"
    name = f"{one.name}, moving" if one.kind == MOVING else one.name
    return [name, width, one.other, say.length(say.boat.along(x)), side, say.length(z)]


def fit_json(her: "Assessment", tube: tuple[float, float] | None = None) -> Document:
    """Return what ``fit`` tells a program; of a tube (length, outside diameter) [m] that alone."""
    if tube is not None:
        return {**common(her), "tube": _tube_json(her, *tube)}
    found = her.fit
    return {
        **common(her),
        "findings": [found_document(her.boat, one) for one in her.fit_findings],
        "comes_out": [
            {
                "thing": one.name,
                "comes_out": one.way is not None,
                "way": one.toward,
                "open": list(one.hatches),
                "out_before": list(one.first),
                "in_the_way": list(one.in_way),
                "opening_m": one.cut and one.cut.opens,
                "opening_needed_m": one.cut and one.cut.needs,
                "opening_edges_m": list(one.cut.edges) if one.cut else [],
                "also_in_the_way": list(one.cut.beside) if one.cut else [],
                "every_place_tried": one.is_sure,
                "poses_m_rad": [] if one.way is None else one.way.poses.tolist(),
            }
            for one in found.outs
        ],
        "gaps": _gaps_json(found),
        "saddles": _saddles_json(found),
        **_along_json(her, found),
    }


def _along_json(her: "Assessment", found: "Fit") -> Document:
    """Return the largest cylinders and tubes, the areas of sections, and the room that is left."""
    gap, cuts = limit_of("gap-cylinder", her.boat).value, found.sections
    x, z = places_along(found), heights_up(found, gap)
    rows = (cuts.x, cuts.inside, cuts.taken, cuts.free)
    keys = ("x_m", "inside_m2", "taken_m2", "free_m2")
    return {
        "largest_cylinders": [
            {"length_m": one.length, "outside_m": one.diameter, "x_m": one.x, "z_m": one.z}
            for one in found.largest
        ],
        "room_left_m3": found.left,
        "largest_tubes": {
            "x_m": x.tolist(),
            "axis_z_m": z.tolist(),
            "outside_m": by_height(found.room, gap, x, z).T.tolist(),
        },
        "sections": [
            dict(zip(keys, row, strict=True))
            for row in zip(*(a.tolist() for a in rows), strict=True)
        ],
        "foam_room_m3": None if her.boat.waterline is None else cuts.foam_room,
        "lead_room_m3": cuts.lead_room,
    }


def _gaps_json(found: "Fit") -> list[Document]:
    return [
        {
            "thing": one.name,
            "other": one.other,
            "kind": one.to,
            "moving": one.kind == MOVING,
            "gap_m": one.width,
            "place_m": list(one.place),
        }
        for one in found.gaps
    ]


def _saddles_json(found: "Fit") -> list[Document]:
    return [
        {
            "cylinder": one.name,
            "x_m": one.x,
            "off_quarter_m": one.off,
            "breadth_m": one.breadth,
            "height_m": one.height,
            "cut_out_m": one.cut,
            "in_the_way": list(one.in_way),
        }
        for one in found.saddles
    ]


def _tube_json(her: "Assessment", length: float, outside: float) -> Document:
    least = limit_of("gap-cylinder", her.boat).value
    found = goes_in(her.fit_room, length, outside, least)
    return {
        "length_m": length,
        "outside_m": outside,
        "goes_in": found is not None,
        "clear_m": found and found.clear,
        "x_m": found and found.x,
        "z_m": found and found.z,
        "x_from_m": found and found.aft,
        "x_to_m": found and found.fore,
        "z_from_m": found and found.low,
        "z_to_m": found and found.high,
    }

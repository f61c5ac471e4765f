"""``place``: the pieces, what hinders a placing and what would mend it."""

import shlex
from collections.abc import Callable, Iterator, Sequence
from math import degrees, inf
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.text import found, words
from trimdive.text.layout import Block, Cells, heading, labelled, line, table
from trimdive.text.place_missing import missing_words
from trimdive.text.say import as_moved
from trimdive.text.sentence import capital
from trimdive.units import write

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.edits.mends import Cure, Mend
    from trimdive.edits.pieces import Placed
    from trimdive.edits.placing import Placement
    from trimdive.edits.work import Work
    from trimdive.findings import Edit
    from trimdive.placing.solve import Reached, Shortfall

CONDITIONS = {
    "waterline-band": "waterline",
    "trim-surfaced": "trim with tanks blown",
    "heel": "heel with tanks blown",
    "gm-least": "GM on the surface",
    "trim-dived": "trim dived",
    "heel-dived": "heel dived",
    "bg-least": "BG dived",
    "tank-margin": "tank room and margin",
    "stuck-tank": "afloat with one tank stuck full",
}
ACTIONS = {"new": "add", "cut": "cut", "out": "remove", "move": "move"}
AIMS = {"mass": "lead and foam", "pieces": "pieces", "foam": "foam", "moves": "moves"}
TOGETHER = (
    "Each is the smallest miss where all limits are asked for at once; check judges her as she is "
    "now."
)
FEW = 0.0005  # kg; less than this is not told as a gap


def place_text(
    done: "Work", given: Path, saved: "Assessment | None", drawn: Path | None = None
) -> Iterator[Block]:
    """Yield what ``place`` prints.

    Args:
        done: What came of it.
        given: BOAT as typed.
        saved: Her as written into her file; None where it was not.
        drawn: The file of the placing card, where it was asked for.
    """
    her = done.her
    yield line(words.title(her))
    if done.done:
        yield line("Nothing to change. --anew places her again all the same.")
        return
    for one in her.first_findings:
        if one.key == "tub-behind":
            yield line(f"First: {found.what(her.boat, one)}. {found.mend(her.boat, one)}")
    if done.mends or done.found is None:
        yield from _hindered(done)
    if done.mends:
        yield heading("First, what lead cannot fix")
        yield labelled((f"{k}.", mend_words(mend, her)) for k, mend in enumerate(done.mends, 1))
    if done.taken:
        yield heading("The change applied")
        yield line(cure_words(her, done.cures[done.taken - 1]))
    if done.found is not None:
        yield from _found(done, done.found)
    else:
        yield from _offered(done)
    if drawn is not None:
        yield line(f"Placing card: {drawn}")
    yield from _end(done, given, saved)


def _hindered(done: "Work") -> Iterator[Block]:
    from trimdive.edits.placing import Hindered

    alone = done.hindered if done.found is None and done.hindered else done.alone
    if not isinstance(alone, Hindered):
        return
    yield heading("Lead, foam and sliding parts alone cannot put her right")
    if alone.shortfalls:
        rows = [(CONDITIONS[s.key], lacking(done.her, s)) for s in alone.shortfalls]
        yield table(["limit missed", "by at least"], rows)
        if len(rows) > 1:
            yield line(TOGETHER)
    elif alone.left:
        yield labelled(("-", found.what(done.her.boat, one)) for one in alone.left)
    else:
        yield line("No choice of whole pieces meets every limit.", "See --seconds and [placing].")
    if text := missing_words(alone):
        yield line(text)


def lacking(her: "Assessment", one: "Shortfall") -> str:
    """Return by how much a condition falls short, in the boat's units."""
    if one.kind == "angle":
        return f"{degrees(one.value):.1f}°"
    if one.kind == "volume":
        return words.volume(her.boat, one.value)
    return her.boat.units.write(one.value, one.kind)


def mend_words(mend: "Mend", her: "Assessment") -> str:
    """Return a mend in one or two sentences, without what placing does by itself."""
    what = found.what(her.boat, mend.finding)
    what = what if what.split(" ")[0].find(".") > 0 else capital(what)
    stop = "" if what.endswith("?") else "."
    return f"{what}{stop} {_changes(mend.edits, her) or found.mend(her.boat, mend.finding)}"


def _changes(edits: Sequence["Edit"], her: "Assessment") -> str:
    """Return changes that move things, in words; nothing for any other change."""
    from trimdive.geometry.solids.build import numbered

    boat = her.boat
    known: dict[str, object] = {f"tank[{i}]": t for i, t in enumerate(boat.tanks, 1)}
    known |= dict(numbered(boat))
    texts: list[str] = []
    for edit in edits:
        for field, value in edit.fields:
            piece = known.get(edit.path)
            was = getattr(piece, field, None)
            if edit.action != "set" or field not in WAYS or not isinstance(was, float):
                return ""
            far = float(str(value)) - was
            way = WAYS[field][far < 0]
            far_words = boat.units.write(abs(far), "length")
            texts.append(f"{as_moved(getattr(piece, 'name', edit.path))} {far_words} {way}")
    return f"Move {', '.join(texts)}." if texts else ""


WAYS = {
    "x": ("forward", "aft"),
    "water_end": ("forward", "aft"),
    "y": ("to port", "to starboard"),
    "z": ("up", "down"),
}


def _found(done: "Work", found: "Placement") -> Iterator[Block]:
    her = done.her
    yield heading("Then the pieces" if done.mends else "The pieces")
    if found.things:
        head = ["", "mass", "cut to", f"from {her.boat.entered_from}", "height", "side"]
        yield table(head, [piece_row(her, k, one) for k, one in enumerate(found.things, 1)])
        yield line(_foot(her))
    else:
        yield line("None: that alone puts her in order.")
    yield heading("Before and after")
    yield table(["", "before", "after"], before_after(her, found.after))
    for one in found.aims:
        text = proof(her, one)
        if text:
            yield line(text)


def _foot(her: "Assessment") -> str:
    return (
        "Mass (of foam, its volume) is of both pieces of a pair, the size is length × breadth × "
        f"height of one, the position is its centre: from the {her.boat.entered_from} and above "
        "the keel line."
    )


def piece_row(her: "Assessment", number: int, one: "Placed") -> list[str]:
    """Return one thing to do as a row."""
    units, boat = her.boat.units, her.boat
    what = f"{number}. {ACTIONS[one.action]} {one.name}"
    if one.action == "new" and not one.name.startswith(one.kind):
        what = f"{number}. {ACTIONS[one.action]} {one.kind}: {one.name}"
    if one.action == "move":
        far = one.place - one.was
        axis = int(abs(far).argmax())
        way = WAYS["xyz"[axis]][float(far[axis]) < 0]
        text = f"{units.write(abs(float(far[axis])), 'length')} {way}"
        return [what, words.mass(boat, one.mass), text, "", "", ""]
    mass = words.mass(boat, one.mass)
    if one.action == "cut":
        mass = f"{mass} (was {words.mass(boat, one.before)})"
    if one.action == "out":
        mass = words.mass(boat, one.before)
    if one.kind == "foam" and one.action != "out":
        mass = units.write(one.volume, "volume")
    out = units.write(abs(float(one.place[1])), "length")
    side = f"both, {out} out" if one.pair else _side(her, float(one.place[1]))
    return [
        what,
        mass,
        cut_size(her, one),
        words.place(boat, float(one.place[0])),
        units.write(float(one.place[2]), "length"),
        side,
    ]


def _side(her: "Assessment", y: float) -> str:
    if abs(y) < 5e-4:
        return "centre"
    return f"{her.boat.units.write(abs(y), 'length')} {'port' if y > 0 else 'stbd'}"


def cut_size(her: "Assessment", one: "Placed") -> str:
    """Return length × breadth × height of a piece, or a dash where its shape is not told."""
    if one.action == "out" or not one.size[1]:
        return "–"
    unit = her.boat.units.shown("length")
    sizes = [write(size, "length", unit).removesuffix(f" {unit}") for size in one.size]
    return f"{' × '.join(sizes)} {unit}"


def before_after(before: "Assessment", after: "Assessment") -> list[Cells]:
    """Return the figures of both states before and after, a row each."""
    return [
        [name, write_figure(before), write_figure(after)] for name, write_figure in FIGURES.items()
    ]


def _off(her: "Assessment") -> str:
    state = her.surfaced
    if state.rest.under:
        return "sinks"
    if not state.has_draughts:
        return words.no_draughts(state)
    line_meant = her.boat.waterline
    off = state.draught(her.midships) - (line_meant.height_at(her.midships) if line_meant else 0.0)
    text = her.boat.units.write(abs(off), "length")
    if not any(figure in text for figure in "123456789"):
        return "on her waterline"
    return f"{text} {'low' if off > 0 else 'high'}"


def _lead(her: "Assessment") -> str:
    return words.mass(her.boat, her.masses.of_kind("lead"))


def _foam(her: "Assessment") -> str:
    volume = sum(body.volume for body in her.bodies if body.kind == "foam")
    return her.boat.units.write(volume, "volume")


def _neutral(her: "Assessment") -> str:
    if not her.boat.tanks:
        return "no tank"
    if not her.full.rest.under:
        return f"{words.weight(her.boat, her.full.rest.excess)} with tanks full: she will not dive"
    return words.share(her.neutral) if her.neutral >= 0 else "sinks"


def _least_gm(her: "Assessment") -> str:
    return her.boat.units.write(her.down.least_gm.state.gm_t, "length")


FIGURES: dict[str, Callable[["Assessment"], str]] = {
    "on the surface: waterline amidships": _off,
    "on the surface: trim": lambda her: words.trim(her.boat, her.surfaced.trim_angle),
    "on the surface: heel": lambda her: words.heel_at(her, her.surfaced),
    "neutral dived at": _neutral,
    "dived: trim": lambda her: words.trim(her.boat, her.lowest.trim_angle),
    "dived: heel": lambda her: words.heel_at(her, her.lowest),
    "dived: BG": lambda her: her.boat.units.write(her.lowest.bg, "length"),
    "least GM on the way down": _least_gm,
    "all lead aboard": _lead,
    "all foam aboard": _foam,
    "dry mass": lambda her: words.mass(her.boat, her.floater.mass),
}


def proof(her: "Assessment", one: "Reached") -> str:
    """Return how sure it is that no placing does better, in a sentence, or nothing."""
    if one.aim == "mass":
        gap = max(one.value - one.bound, 0.0)
        if gap < FEW:
            return "Proven: no other choice of these pieces and places is lighter."
        if one.proven:
            more = words.mass(her.boat, gap)
            return f"Proven: no other choice of these places saves more than {more}."
        return f"Could still be {words.mass(her.boat, gap)} lighter; more time may show."
    if one.aim == "pieces" and not one.proven and 1 <= one.value - one.bound < inf:
        return f"Perhaps {one.value - one.bound:.0f} pieces fewer would do."
    return ""


def reached_words(one: "Reached") -> str:
    """Return how far a placing is, for a person who waits."""
    bound = "proven" if one.proven else f"no less than {one.bound:.4g}"
    unit = {"mass": " kg", "pieces": "", "foam": " m³", "moves": " m"}[one.aim]
    return f"{AIMS[one.aim]}: {one.value:.4g}{unit}, {bound}"


def _offered(done: "Work") -> Iterator[Block]:
    """Yield changes of another kind that would do."""
    if not done.cures:
        yield heading("What would fix it")
        yield line(
            "No single change that was tried is enough: each tank moved in its cylinder or made "
            "longer, or foam above the waterline. Put the other faults right first, or allow more "
            "room: [[pocket]], [[lane]]."
        )
        return
    yield heading("Any one of these would do; each was calculated and floats right")
    yield labelled((f"{k}.", cure_words(done.her, cure)) for k, cure in enumerate(done.cures, 1))


def _count(pieces: int) -> str:
    return "one piece of lead or foam" if pieces == 1 else f"{pieces} pieces of lead or foam"


def cure_words(her: "Assessment", cure: "Cure") -> str:
    """Return a change of another kind in a sentence."""
    units = her.boat.units
    if cure.kind == "foam":
        volume = sum(t.volume for t in cure.found.things if t.kind == "foam")
        high = [t for t in cure.found.things if t.kind == "foam" and t.action == "new"]
        places = ", ".join(words.place(her.boat, float(t.place[0])) for t in high)
        return (
            f"{units.write(volume, 'volume')} of foam above the waterline, {places} from the "
            f"{her.boat.entered_from}; it takes as much more ballast water."
        )
    if cure.kind == "longer":
        more = len(cure.found.things)
        tail = f", and {_count(more)} cut or laid" if more else ""
        return f"Make {cure.tank} {units.write(cure.far, 'length')} longer{tail}."
    moves = [t for t in cure.found.things if t.action == "move"]
    texts = [
        f"{as_moved(t.name)} {units.write(abs(float((t.place - t.was)[0])), 'length')} "
        f"{words.way(float((t.place - t.was)[0]))[0]}"
        for t in moves
    ]
    more = len(cure.found.things) - len(moves)
    tail = f", and {_count(more)} cut or laid" if more else ""
    return f"Move {' and '.join(texts)}{tail}."


def _end(done: "Work", given: Path, saved: "Assessment | None") -> Iterator[Block]:
    """Yield how to take it over, or what was written."""
    yield line()
    boat = shlex.quote(str(given))
    if saved is not None:
        yield line("Written into the boat file; the previous version is kept beside it.")
        if not saved.urgent:
            yield line("Nothing more to put right in the water.")
        elif done.found is None:
            left = words.things(saved.urgent)
            yield line(f"These were the other changes alone; {left} remain: see trimdive check.")
        return
    if done.found is not None:
        left = done.found.left
        mend = f" --take {done.taken}" if done.taken else ""
        mend += " --mend" if done.steps else ""
        yield line(f"To apply it: trimdive place {boat}{mend} --apply")
        if left:
            yield line(f"{words.things(len(left))} remain: see trimdive check.")
    elif done.cures:
        mend = " --mend" if done.steps else ""
        yield line(f"To apply one: trimdive place {boat} --take 1{mend} --apply")
    if done.found is None and done.mended is not None:
        left = words.things(done.mended.urgent)
        yield line(
            f"To make the other changes alone: trimdive place {boat} --mend --apply; {left} then."
        )
    elif done.found is None and done.mends:
        yield line(
            "The other changes alone would leave more wrong than now, so they are not written."
        )

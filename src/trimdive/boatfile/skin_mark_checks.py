"""What cannot be right in holes, plate lines and figures of the draught as they were typed."""

from collections.abc import Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.kinds import HOLE_NEEDS
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.places import Path
from trimdive.boatfile.quantities import is_given
from trimdive.boatfile.skin_marks import DraughtMark, Hole, OnSkin, PlateLine

Mistakes = Iterator[Mistake]
WHERE = ("z", "girth", "off_middle")


def skin_mark_mistakes(boat: Boat) -> Mistakes:
    """Yield what on the skin has no place or two, no size, or does not go with its kind."""
    for number, hole in enumerate(boat.holes):
        path: Path = ("hole", number)
        yield from _where(path, hole, is_needed=True)
        yield from _sized(path, hole)
    for number, line in enumerate(boat.plate_lines):
        path = ("plate_line", number)
        yield from _where(path, line, is_needed=line.x is None)
        yield from _line(path, line)
    for number, figures in enumerate(boat.draught_marks):
        yield from _figures(("draught_mark", number), figures)


def _where(path: Path, piece: OnSkin, *, is_needed: bool) -> Mistakes:
    given = [name for name in WHERE if getattr(piece, name) is not None]
    if len(given) > 1:
        what = f"{' and '.join(given)} both say where it lies"
        beside = "It is entered where it lies already. Keep one of them."
        yield Mistake((*path, given[1]), what, "Keep one of them.", beside=beside)
    elif is_needed and not given:
        what, mend = "it has no place on the skin", "Add z, girth, or off_middle on deck."
        beside = "Enter its height, its girth from the keel, or how far off the middle it lies."
        yield Mistake(path, what, mend, fields=WHERE, beside=beside)
    elif not is_needed and given:
        what = f"it runs round the hull at its x, so that {given[0]} says nothing"
        beside = "It runs round the hull at its x. Leave one of the two empty."
        yield Mistake((*path, given[0]), what, "Take one of the two out.", beside=beside)
    if piece.girth is not None and piece.on is not None:
        what = "girth is measured from the keel over the whole hull, whatever the region"
        beside = "Girth is measured over the whole hull. Leave the region empty, or enter a height."
        yield Mistake((*path, "on"), what, "Take on out, or give z.", beside=beside)


def _sized(path: Path, hole: Hole) -> Mistakes:
    missing = [name for name in HOLE_NEEDS[hole.shape] if not is_given(getattr(hole, name))]
    if missing:
        what = f"a {hole.shape} hole needs its {' and its '.join(missing)}"
        beside = f"A {hole.shape} hole needs it."
        mend = f"Add {' and '.join(missing)}."
        yield Mistake(path, what, mend, fields=tuple(missing), beside=beside)
        return
    if hole.count > 1 and hole.pitch is None:
        what, mend = "a row of holes needs its pitch", "Add pitch, middle to middle."
        yield Mistake(path, what, mend, fields=("pitch",), beside="A row needs it.")
    elif hole.count > 1 and hole.pitch is not None and hole.pitch <= hole.sizes[0]:
        what = "its holes run into each other: the pitch is no more than their length"
        yield Mistake((*path, "pitch"), what, "Measure both again.")


def _line(path: Path, line: PlateLine) -> Mistakes:
    ends = [name for name in ("x_aft", "x_fore") if getattr(line, name) is not None]
    if line.x is not None and ends:
        what = f"it runs round the hull at its x, so that {ends[0]} says nothing"
        beside = "It runs round the hull at its x. Leave one of the two empty."
        yield Mistake((*path, ends[0]), what, "Take one of the two out.", beside=beside)
    if line.x is None and line.z_top is not None:
        what, mend = "only what runs round the hull ends at a height", "Take z_top out, or add x."
        beside = "Only what runs round the hull has it. Leave it empty, or enter x."
        yield Mistake((*path, "z_top"), what, mend, beside=beside)
    for field, kind in (("band", "boot top"), ("pitch", "rivets")):
        if getattr(line, field) is not None and line.kind != kind:
            what = f"a {line.kind} has no {field}"
            beside = f"A {line.kind} has none. Leave it empty."
            mend = f'Take {field} out, or write kind = "{kind}".'
            yield Mistake((*path, field), what, mend, beside=beside)
    if line.band is not None and line.z is None:
        what = "the band of a boot top is upright, from a height"
        beside = "A band stands on a height: enter that."
        yield Mistake((*path, "band"), what, "Give z.", beside=beside)


def _figures(path: Path, figures: DraughtMark) -> Mistakes:
    if (figures.at is None) == (figures.x is None):
        what = "they stand at stem or stern, or at an x: one of the two"
        beside = "Choose stem or stern, or enter a place along the boat."
        yield Mistake(path, what, "Write at or x.", fields=("at", "x"), beside=beside)
    if figures.height is not None and figures.count > 1 and figures.height > figures.step:
        what = "its figures stand in each other: they are higher than the step"
        yield Mistake((*path, "height"), what, "Measure both again.")

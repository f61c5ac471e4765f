"""What cannot be right in a part, lead, foam or a coat: its shape, height, mass and volume."""

from collections.abc import Iterable, Iterator
from math import pi

from trimdive.boatfile.kinds import MAY_HAVE, NEEDS, OF_SHAPES
from trimdive.boatfile.messages import Mistake
from trimdive.boatfile.piece import Measured, Weighed
from trimdive.boatfile.pieces import Coat, Part
from trimdive.boatfile.places import Path
from trimdive.boatfile.quantities import is_given
from trimdive.boatfile.resolve import extents

Mistakes = Iterator[Mistake]


def part_mistakes(listed: Iterable[tuple[Path, Measured | Weighed]]) -> Mistakes:
    """Yield parts whose shape, height, mass or volume is not told, and such coats."""
    for path, piece in listed:
        if isinstance(piece, Part):
            yield from _shape(path, piece)
            yield from _height(path, piece)
            yield from _mass(path, piece)
            yield from _travel(path, piece)
            if piece.at_cap and not piece.inside:
                mend = 'Add inside = "…", the cylinder whose cap it is.'
                what, beside = "it lies in no cylinder", "Enter in which cylinder it lies."
                yield Mistake((*path, "at_cap"), what, mend, fields=("inside",), beside=beside)
            if piece.pair and not piece.y:
                mend = "Add y, how far each lies from the middle."
                what, beside = "a pair needs a place to port", "Enter how far to port one lies."
                yield Mistake((*path, "pair"), what, mend, beside=beside)
        elif isinstance(piece, Coat) and not (has_density(piece) or is_given(piece.hung)):
            mend = 'Add material = "paint", or its density.'
            what, beside = "its volume is missing", "Enter its material, such as paint."
            yield Mistake(path, what, mend, fields=("material",), beside=beside)
        elif isinstance(piece, Coat) and not _is_weighed_coat(piece):
            mend = 'Add mass = "…", per_area = "150 g/m2", or before and after.'
            beside = "Enter its mass, the mass for each area, or what she weighed before and after."
            yield Mistake(path, "its mass is missing", mend, fields=("mass",), beside=beside)


def _travel(path: Path, part: Part) -> Mistakes:
    """Yield a movement that is none, or that a part without a size cannot make."""
    travel = part.moving
    if travel is None:
        return
    if travel.slides is None and travel.swings is None:
        what = "it neither slides nor swings"
        mend = 'Add slides = "…" or swings = "…".'
        beside = "Enter how far it slides, or how far it swings."
        fields = ("slides", "swings")
        yield Mistake((*path, "moving"), what, mend, fields=fields, beside=beside)
    if travel.swings is not None and not 0 < travel.swings < pi:
        what = "it swings by nothing, or by half a turn and more"
        yield Mistake((*path, "moving", "swings"), what, "Write an angle between 0 and 180°.")
    if part.shape == "point":
        what = "a point has no size that could sweep a space"
        beside = "Enter its shape and its sizes first."
        yield Mistake((*path, "moving"), what, "Give it a shape.", beside=beside)


def has_density(piece: Weighed) -> bool:
    """Return whether a density is told, or a material that has one."""
    known = (piece.material, piece.density, piece.offcut)
    return any(one is not None for one in known)


def _is_weighed_coat(coat: Coat) -> bool:
    """Return whether the mass of a coat is told in one of its ways."""
    return any(one is not None for one in (coat.mass, coat.per_area, coat.after))


def _mass(path: Path, part: Part) -> Mistakes:
    """Yield a mass that is missing, or a volume that nothing tells."""
    has_volume = part.volume is not None or (part.shape != "point" and not part.open)
    is_weighed = part.mass is not None or part.by_ends is not None
    if not is_weighed and not (has_volume and has_density(part)):
        mend = "Add its mass, or its material with its shape or volume."
        beside = "Enter it, or the material with the shape or the volume."
        yield Mistake(path, "its mass is missing", mend, fields=("mass",), beside=beside)
    elif not (part.inside or has_volume or has_density(part) or is_given(part.hung)):
        what = "its volume is missing"
        mend = "Add its material, volume or shape, what it weighs hung under water, or inside."
        beside = "Its volume is not known. Enter its material, volume or shape, or in what it lies."
        yield Mistake(path, what, mend, fields=("material",), beside=beside)


def _shape(path: Path, part: Part) -> Mistakes:
    """Yield what a shape lacks, or has too much of."""
    needed = NEEDS[part.shape]
    for field in needed:
        if getattr(part, field) is None:
            what = f"a {part.shape} needs its {field}"
            mend, beside = f"Add a line: {field} = …", f"A {part.shape} needs it."
            yield Mistake(path, what, mend, fields=(field,), beside=beside)
    for field in OF_SHAPES:
        is_given = getattr(part, field) is not None
        if is_given and field not in (*needed, *MAY_HAVE.get(part.shape, ())):
            near = [shape for shape, fields in NEEDS.items() if field in fields]
            mend = f"Take it out, or write shape = one of: {', '.join(near)}."
            beside = f"A {part.shape} has none. Leave it empty, or choose another shape."
            yield Mistake((*path, field), f"a {part.shape} has no {field}", mend, beside=beside)
    if part.wall and part.diameter and 2 * part.wall >= part.diameter:
        what = "the wall is thicker than the radius"
        yield Mistake((*path, "wall"), what, "Measure wall and diameter again.")
    long = extents(part)[0]
    for end in ("x_aft", "x_fore"):
        if getattr(part, end) is not None and long is None:
            what = f"a {part.shape} has no length to count from {end}"
            mend = "Write x, the place of its middle, or a shape."
            beside = "Enter the place of its middle instead, or a shape with a length."
            yield Mistake((*path, end), what, mend, beside=beside)


def _height(path: Path, part: Part) -> Mistakes:
    """Yield a height that is missing, given twice or cannot be counted from an edge."""
    given = [name for name in ("z", "z_bottom", "z_top") if getattr(part, name) is not None]
    if not given:
        mend, beside = "Add z, z_bottom or z_top.", "Enter how high it lies."
        what = "its height is missing"
        yield Mistake(path, what, mend, fields=("z", "z_bottom", "z_top"), beside=beside)
    elif len(given) > 1:
        what = f"{' and '.join(given)} both say how high it lies"
        beside = "It is entered how high it lies already. Keep one of the heights."
        yield Mistake((*path, given[1]), what, "Keep one of them.", beside=beside)
    elif given != ["z"] and extents(part)[2] is None:
        what = f"a {part.shape} has no height to count from {given[0]}"
        mend = "Write z, the height of its middle, or a shape."
        beside = "Enter the height of its middle instead, or a shape with a height."
        yield Mistake((*path, given[0]), what, mend, beside=beside)

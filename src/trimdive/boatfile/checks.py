"""What cannot be right in a boat as it was typed, before any place is worked out."""

import difflib
from collections.abc import Callable, Iterable, Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.materials import unknown_material
from trimdive.boatfile.messages import Mistake, named_fields, of_error
from trimdive.boatfile.outline_checks import outline_mistakes
from trimdive.boatfile.piece import Measured, Placed, Weighed
from trimdive.boatfile.pieces import Coat, Cylinder, Mark, Part, Tank
from trimdive.boatfile.places import Path, dotted
from trimdive.boatfile.quantities import is_given
from trimdive.boatfile.readings import reading_mistakes
from trimdive.boatfile.resolve import ALONG, extents
from trimdive.boatfile.together import is_beside
from trimdive.data import table
from trimdive.errors import DataError, UnitError
from trimdive.units import unit_named

NEEDS: dict[str, tuple[str, ...]] = {  # fields that a shape needs
    "point": (),
    "box": ("length", "breadth", "height"),
    "cylinder": ("length", "diameter"),
    "tube": ("length", "diameter", "wall"),
    "sphere": ("diameter",),
    "mesh": ("mesh", "file_unit"),
}
MAY_HAVE = {"mesh": ("length", "breadth", "height"), "point": ()}
OF_SHAPES = tuple(dict.fromkeys(field for fields in NEEDS.values() for field in fields))
TANK_NEEDS = {"round": ("bore",), "box": ("breadth", "height"), "mesh": ("mesh", "file_unit")}
PISTON = ("water_end", "stroke", "runs")

Mistakes = Iterator[Mistake]


def typed_mistakes(boat: Boat) -> list[Mistake]:
    """Return what is wrong with a boat before it is resolved."""
    checks: tuple[Callable[[Boat], Mistakes], ...] = (
        _names,
        _ends,
        _places,
        _references,
        _materials,
        _files,
        _waterline,
        _regions,
        outline_mistakes,
        _cylinders,
        _tanks,
        _fills,
        _parts,
        _spaces,
        _limits,
    )
    return [mistake for check in checks for mistake in check(boat)]


def tables(boat: Boat) -> Iterator[tuple[Path, list[Measured | Weighed]]]:
    """Return every list of pieces with its name in the file."""
    for field, key in zip(Boat.model_fields, named_fields(Boat), strict=True):
        pieces = getattr(boat, field)
        if isinstance(pieces, tuple):
            yield (key,), list(pieces)


def pieces(boat: Boat) -> Iterator[tuple[Path, Measured | Weighed]]:
    """Yield every piece of a list with its path."""
    for path, listed in tables(boat):
        for number, piece in enumerate(listed):
            yield (*path, number), piece
            further = getattr(piece, "pieces", ())  # meshes of a region
            yield from (((*path, number, "piece", k), one) for k, one in enumerate(further))


def unknown(path: Path, what: str, name: str, known: Iterable[str]) -> Mistake:
    """Return the mistake of a name that stands for nothing, with the nearest that does."""
    names = list(known)
    near = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    mend = f"Did you mean '{near[0]}'?" if near else f"Known: {', '.join(names) or 'none'}."
    return Mistake(path, f"there is no {what} '{name}'", mend)


def _names(boat: Boat) -> Mistakes:
    """Yield pieces of one kind that go by one name, and parts without any."""
    seen: dict[tuple[str, str], Path] = {}
    for path, piece in pieces(boat):
        name = getattr(piece, "name", None)
        if name is None:
            if type(piece) is Part:
                yield Mistake(path, "the part has no name", 'Add a line: name = "…"')
            continue
        family = "part" if isinstance(piece, Part) else str(path[0])
        first = seen.setdefault((family, name.casefold()), path)
        if first != path:
            what = f"'{name}' is the name of {dotted(first)} already"
            yield Mistake((*path, "name"), what, "Give it a name of its own, or take one out.")


def _ends(boat: Boat) -> Mistakes:
    """Yield what is measured from nowhere, or from the bow of a boat without a length."""
    marks = [mark.name for mark in boat.marks]
    for path, piece in pieces(boat):
        start = piece.measured_from if isinstance(piece, Measured) else None
        if start and start not in ("stern", "bow", *marks):
            yield unknown((*path, "from"), "mark", start, ["stern", "bow", *marks])
        elif start in marks and isinstance(piece, Mark):
            what = "a mark is measured from the stern or the bow"
            yield Mistake((*path, "from"), what, "Write one of them.")
    if boat.length is not None:
        return
    mend = "Add a line at the top of the file: length = …"
    what = "it is measured from the bow, but the boat has no length"
    if boat.measured_from == "bow":
        yield Mistake(("measured_from",), what, mend)
    else:
        for path, piece in pieces(boat):
            if isinstance(piece, Measured) and piece.measured_from == "bow":
                yield Mistake((*path, "from"), what, mend)


def _places(boat: Boat) -> Mistakes:
    """Yield pieces with no place along the boat, or with two."""
    for path, piece in pieces(boat):
        if not isinstance(piece, Placed):
            continue
        given = [name for name in ALONG[:3] if getattr(piece, name) is not None]
        if isinstance(piece, Tank) and piece.kind == "piston":
            if given and not (given == ["x"] and piece.x == piece.middle_of_stroke):
                what = f"a piston tank lies where its water_end is, not at {given[0]}"
                yield Mistake((*path, given[0]), what, f"Take {given[0]} out.")
        elif not given and getattr(piece, "by_ends", None) is None:
            yield Mistake(path, "it has no place along the boat", "Add x, x_aft or x_fore.")
        elif len(given) > 1:
            what = f"{' and '.join(given)} both say where it lies"
            yield Mistake((*path, given[1]), what, "Keep one of them.")
        if isinstance(piece, Cylinder) and not is_given(piece.z):
            yield Mistake(path, "its height is missing", "Add z, the height of its axis.")


def _references(boat: Boat) -> Mistakes:
    """Yield names of cylinders and regions that there are not."""
    cylinders = [cylinder.name for cylinder in boat.cylinders]
    vessels = [*cylinders, *(skin.name for skin in boat.regions if skin.sealed)]
    vessels += [tank.name for tank in boat.tanks if tank.inside is None]
    tanks = [tank.name for tank in boat.tanks]
    regions = [skin.name for skin in boat.regions]
    sealed = [skin.name for skin in boat.regions if skin.sealed]
    for path, piece in pieces(boat):
        if isinstance(piece, Cylinder) and piece.inside and piece.inside not in sealed:
            yield unknown((*path, "inside"), "sealed region", piece.inside, sealed)
        if isinstance(piece, Tank) and piece.inside and piece.inside not in cylinders:
            yield unknown((*path, "inside"), "cylinder", piece.inside, cylinders)
        if isinstance(piece, Part) and piece.inside and piece.inside not in vessels:
            yield unknown((*path, "inside"), "cylinder", piece.inside, vessels)
        if isinstance(piece, Part) and piece.works_of and piece.works_of not in tanks:
            yield unknown((*path, "works_of"), "tank", piece.works_of, tanks)
    for number, coat in enumerate(boat.coats):
        for name in coat.on:
            if name not in regions:
                yield unknown(("coat", number, "on"), "region", name, regions)


def _materials(boat: Boat) -> Mistakes:
    """Yield materials that the table does not hold, and scales that read the wrong way."""
    known = [row["key"] for row in _rows("materials")]
    for path, piece in pieces(boat):
        if not isinstance(piece, Weighed):
            continue
        yield from reading_mistakes(path, piece)
        material = piece.material
        if known and material and material not in known and piece.density is None:
            yield of_error((*path, "material"), unknown_material(material))
        if piece.hung is not None and piece.mass is None:
            what = "it was weighed under water but not in air"
            yield Mistake((*path, "hung"), what, "Add its mass as weighed in air.")
        if piece.hung is not None and piece.mass is not None and piece.hung >= piece.mass:
            what = "hung under water it weighs as much as in air, or more"
            yield Mistake((*path, "hung"), what, "Weigh both again; what pulls up is negative.")


def _rows(name: str) -> tuple[dict[str, str], ...]:
    """Return a shipped table, or nothing where it is not there."""
    try:
        return table(name)
    except DataError:
        return ()


def _files(boat: Boat) -> Mistakes:
    """Yield files that lie outside the boat's folder, and meshes in no unit of length."""
    for path, piece in pieces(boat):
        for field in ("file", "mesh"):
            name = getattr(piece, field, None)
            if name and not is_beside(name):
                what = f"'{name}' lies outside the boat's folder, or begins with a dot"
                mend = "Copy it beside the boat file, under a plain name."
                yield Mistake((*path, field), what, mend)
        unit = getattr(piece, "file_unit", None)
        if unit:
            try:
                unit_named(unit, "length")
            except UnitError as error:
                yield Mistake((*path, "file_unit"), error.what, error.mend, is_unit=True)


def _waterline(boat: Boat) -> Mistakes:
    """Yield a waterline that is given twice, by half or at one place."""
    line = boat.waterline
    if line is None:
        return
    level, sloping = line.height is not None, line.aft is not None or line.fore is not None
    if level == sloping:
        what = "it needs either a height or draughts aft and fore"
        yield Mistake(("waterline",), what, 'Write height = "154 mm", or both aft and fore.')
    elif sloping and (line.aft is None or line.fore is None):
        missing = "aft" if line.aft is None else "fore"
        mend = f'Add {missing} = {{ x = "…", height = "…" }}.'
        yield Mistake(("waterline",), f"'{missing}' is missing", mend)
    elif line.aft and line.fore and line.aft.x == line.fore.x:
        what = "aft and fore are the same place"
        yield Mistake(("waterline",), what, "Measure at two places far from each other.")


def _regions(boat: Boat) -> Mistakes:
    """Yield regions whose skin cannot be worked out."""
    for number, skin in enumerate(boat.regions):
        path: Path = ("region", number)
        is_known = _has_density(skin)
        is_weighed = skin.mass is not None or skin.by_ends is not None
        has_volume = is_weighed and (is_known or skin.hung is not None)
        is_wall = getattr(skin, "closed_walls", False)
        is_thick = skin.thickness is not None or bool(skin.walls)
        if not (is_thick or has_volume or is_wall or skin.sealed):
            what = "the skin has no thickness, and no mass and material to find it from"
            yield Mistake(path, what, 'Add thickness = "…", or mass and material.')
        if skin.sealed and not is_weighed and not is_thick:
            what = "the mass of its walls is missing"
            yield Mistake(path, what, 'Add mass = "…", or thickness and material.')
        if not is_weighed and not is_known:
            what = "it has neither a mass nor a material to work it out from"
            yield Mistake(path, what, 'Add mass = "…" or material = "…".')


def _cylinders(boat: Boat) -> Mistakes:
    """Yield cylinders whose wall leaves no room, and pairs in the middle of the boat."""
    for number, cylinder in enumerate(boat.cylinders):
        path: Path = ("cylinder", number)
        if cylinder.bore <= 0:
            what = "the wall is thicker than the radius"
            yield Mistake((*path, "wall"), what, "Measure wall and outside again.")
        if cylinder.ends == "round" and cylinder.length < cylinder.outside:
            what = "its round ends alone are longer than the cylinder"
            mend = 'Give the length over the ends, or ends = "flat".'
            yield Mistake((*path, "length"), what, mend)
        if cylinder.pair and not cylinder.y:
            yield Mistake((*path, "pair"), "a pair needs a place to port", "Add y.")
        if cylinder.mass is None and not _has_density(cylinder):
            what = "it has neither a mass nor a material to work it out from"
            yield Mistake(path, what, 'Add mass = "…", of the tube with its caps.')


def _tanks(boat: Boat) -> Mistakes:
    """Yield tanks that lack a measure."""
    for number, tank in enumerate(boat.tanks):
        path: Path = ("tank", number)
        needed = [*TANK_NEEDS[tank.shape], *(PISTON if tank.kind == "piston" else ("length",))]
        if tank.inside:
            needed = [field for field in needed if field != "bore"]
        else:
            needed.append("z")
        if tank.shape == "mesh":
            needed = [field for field in needed if field != "length"]
        for field in needed:
            if getattr(tank, field) is None:
                what = f"a {tank.shape} {tank.kind} tank needs its {field}"
                yield Mistake(path, what, f"Add a line: {field} = …")
        if tank.kind == "piston" and tank.shape != "round":
            yield Mistake((*path, "shape"), "a piston tank is round", 'Write shape = "round".')
        if tank.kind == "open":
            for field in PISTON:
                if getattr(tank, field) is not None:
                    what = f"only a piston tank has a {field}"
                    yield Mistake((*path, field), what, 'Take it out, or write kind = "piston".')
        if not tank.inside and tank.mass is None and not (tank.wall and _has_density(tank)):
            what = "a free-standing tank needs a mass, or a wall and a material"
            yield Mistake(path, what, 'Add mass = "…", or inside = "…" with its cylinder.')
        if tank.blown is not None and tank.blown >= tank.neutral:
            what = "blown it is as full as when she is neutral, or fuller"
            yield Mistake((*path, "blown"), what, "Write less than neutral.")


def _fills(boat: Boat) -> Mistakes:
    """Yield rows of the filling table that name no tank."""
    tanks = [tank.name for tank in boat.tanks]
    for number, step in enumerate(boat.fills):
        for name in step.levels:
            if name not in tanks:
                yield unknown(("fill", number, "levels"), "tank", name, tanks)


def _parts(boat: Boat) -> Mistakes:
    """Yield parts whose shape, height, mass or volume is not told, and such coats."""
    for path, piece in pieces(boat):
        if isinstance(piece, Part):
            yield from _shape(path, piece)
            yield from _height(path, piece)
            yield from _mass(path, piece)
            if piece.pair and not piece.y:
                mend = "Add y, how far each lies from the middle."
                yield Mistake((*path, "pair"), "a pair needs a place to port", mend)
        elif isinstance(piece, Coat) and not (_has_density(piece) or is_given(piece.hung)):
            mend = 'Add material = "paint", or its density.'
            yield Mistake(path, "its volume is missing", mend)
        elif isinstance(piece, Coat) and not _is_weighed_coat(piece):
            mend = 'Add mass = "…", per_area = "150 g/m2", or before and after.'
            yield Mistake(path, "its mass is missing", mend)


def _has_density(piece: Weighed) -> bool:
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
    if not is_weighed and not (has_volume and _has_density(part)):
        mend = "Add its mass, or its material with its shape or volume."
        yield Mistake(path, "its mass is missing", mend)
    elif not (part.inside or has_volume or _has_density(part) or is_given(part.hung)):
        what = "its volume is missing"
        mend = "Add its material, volume or shape, what it weighs hung under water, or inside."
        yield Mistake(path, what, mend)


def _shape(path: Path, part: Part) -> Mistakes:
    """Yield what a shape lacks, or has too much of."""
    needed = NEEDS[part.shape]
    for field in needed:
        if getattr(part, field) is None:
            what = f"a {part.shape} needs its {field}"
            yield Mistake(path, what, f"Add a line: {field} = …")
    for field in OF_SHAPES:
        is_given = getattr(part, field) is not None
        if is_given and field not in (*needed, *MAY_HAVE.get(part.shape, ())):
            near = [shape for shape, fields in NEEDS.items() if field in fields]
            mend = f"Take it out, or write shape = one of: {', '.join(near)}."
            yield Mistake((*path, field), f"a {part.shape} has no {field}", mend)
    if part.wall and part.diameter and 2 * part.wall >= part.diameter:
        what = "the wall is thicker than the radius"
        yield Mistake((*path, "wall"), what, "Measure wall and diameter again.")
    long = extents(part)[0]
    for end in ("x_aft", "x_fore"):
        if getattr(part, end) is not None and long is None:
            what = f"a {part.shape} has no length to count from {end}"
            yield Mistake((*path, end), what, "Write x, the place of its middle, or a shape.")


def _height(path: Path, part: Part) -> Mistakes:
    """Yield a height that is missing, given twice or cannot be counted from an edge."""
    given = [name for name in ("z", "z_bottom", "z_top") if getattr(part, name) is not None]
    if not given:
        yield Mistake(path, "its height is missing", "Add z, z_bottom or z_top.")
    elif len(given) > 1:
        what = f"{' and '.join(given)} both say how high it lies"
        yield Mistake((*path, given[1]), what, "Keep one of them.")
    elif given != ["z"] and extents(part)[2] is None:
        what = f"a {part.shape} has no height to count from {given[0]}"
        yield Mistake((*path, given[0]), what, "Write z, the height of its middle, or a shape.")


def _spaces(boat: Boat) -> Mistakes:
    """Yield kept-clear spaces and pockets whose sides are not told, or told twice."""
    spaces = [("keep_clear", boat.keep_clear), ("pocket", boat.pockets)]
    for key, number, space in ((k, i, s) for k, listed in spaces for i, s in enumerate(listed)):
        sides = [is_given(side) for side in (space.y_starboard, space.y_port)]
        is_whole = any(sides) is False if space.breadth else all(sides)
        if not is_whole:
            what = "it needs either a breadth or both y_starboard and y_port"
            yield Mistake((key, number), what, "Write one or the other.")


def _limits(boat: Boat) -> Mistakes:
    """Yield limits that the table does not hold."""
    known = [row["key"] for row in _rows("limits")]
    for name in boat.limits:
        if known and name not in known:
            yield unknown(("limits", name), "limit", name, known)

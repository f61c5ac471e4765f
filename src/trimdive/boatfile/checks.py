"""What cannot be right in a boat as it was typed, before any place is worked out."""

import difflib
from collections.abc import Callable, Iterable, Iterator

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.hatch_checks import hatch_mistakes
from trimdive.boatfile.kinds import PISTON, TANK_NEEDS
from trimdive.boatfile.materials import unknown_material
from trimdive.boatfile.messages import Mistake, named_fields, of_error
from trimdive.boatfile.outline_checks import outline_mistakes
from trimdive.boatfile.part_checks import has_density, part_mistakes
from trimdive.boatfile.piece import Measured, Placed, Weighed
from trimdive.boatfile.pieces import Cylinder, Mark, Part, Tank
from trimdive.boatfile.places import Path, dotted
from trimdive.boatfile.placing import Pocket
from trimdive.boatfile.quantities import is_given
from trimdive.boatfile.readings import reading_mistakes
from trimdive.boatfile.refers import REFERS, names_for
from trimdive.boatfile.resolve import ALONG
from trimdive.boatfile.skin_mark_checks import skin_mark_mistakes
from trimdive.boatfile.together import is_beside
from trimdive.data import table
from trimdive.errors import DataError, UnitError
from trimdive.units import unit_named

Mistakes = Iterator[Mistake]
SHALLOW = 0.05  # no water is less deep [m]


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
        lambda boat: part_mistakes(pieces(boat)),
        _spaces,
        hatch_mistakes,
        skin_mark_mistakes,
        _depths,
        _limits,
    )
    return [mistake for check in checks for mistake in check(boat)]


def _depths(boat: Boat) -> Mistakes:
    """Yield depths of water in which nothing dives: a bare number is in the unit of lengths."""
    brief, failsafe = boat.brief, boat.failsafe
    for path, deep in (
        (("brief", "pond_depth"), brief and brief.pond_depth),
        (("failsafe", "too_deep_at"), failsafe and failsafe.too_deep_at),
    ):
        if deep is not None and deep < SHALLOW:
            what = f"no boat dives in {boat.units.write(deep, 'length')} of water"
            yield Mistake(path, what, 'Write the depth with its unit, such as "2 m".')


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
                mend, beside = 'Add a line: name = "…"', "Give it a name."
                what = "the part has no name"
                yield Mistake(path, what, mend, fields=("name",), beside=beside)
            continue
        family = "part" if isinstance(piece, Part) else str(path[0])
        first = seen.setdefault((family, name.casefold()), path)
        if first != path:
            what = f"'{name}' is the name of {dotted(first)} already"
            mend = "Give it a name of its own, or take one out."
            beside = "Another is called so already. Give it a name of its own."
            yield Mistake((*path, "name"), what, mend, beside=beside)


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
    beside = "Enter the length of the boat first: it is measured from the bow."
    if boat.measured_from == "bow":
        yield Mistake(("measured_from",), what, mend, beside=beside)
    else:
        for path, piece in pieces(boat):
            if isinstance(piece, Measured) and piece.measured_from == "bow":
                yield Mistake((*path, "from"), what, mend, beside=beside)


def _places(boat: Boat) -> Mistakes:
    """Yield pieces with no place along the boat, or with two."""
    for path, piece in pieces(boat):
        if not isinstance(piece, Placed):
            continue
        given = [name for name in ALONG[:3] if getattr(piece, name) is not None]
        if isinstance(piece, Tank) and piece.kind == "piston":
            if given and not (given == ["x"] and piece.x == piece.middle_of_stroke):
                what = f"a piston tank lies where its water_end is, not at {given[0]}"
                beside = "A piston tank lies where its water begins. Leave this empty."
                yield Mistake((*path, given[0]), what, f"Take {given[0]} out.", beside=beside)
        elif not given and getattr(piece, "by_ends", None) is None:
            what, mend = "it has no place along the boat", "Add x, x_aft or x_fore."
            beside = "Enter where its middle lies along the boat, or one of its ends."
            yield Mistake(path, what, mend, fields=ALONG[:3], beside=beside)
        elif len(given) > 1:
            what = f"{' and '.join(given)} both say where it lies"
            beside = "It is entered where it lies already. Keep its middle or one end."
            yield Mistake((*path, given[1]), what, "Keep one of them.", beside=beside)
        if isinstance(piece, Cylinder) and not is_given(piece.z):
            mend, beside = "Add z, the height of its axis.", "Enter the height of its axis."
            yield Mistake(path, "its height is missing", mend, fields=("z",), beside=beside)


def _references(boat: Boat) -> Mistakes:
    """Yield names of cylinders, tanks and regions that there are not."""
    for path, piece in pieces(boat):
        for field in ("inside", "works_of", "on"):
            named = REFERS.get((str(path[0]), field))
            name = getattr(piece, field, None)
            if named is None or not isinstance(name, str) or isinstance(piece, Pocket):
                continue
            known = names_for(boat, str(path[0]), field)
            if name not in known:
                yield unknown((*path, field), named.what, name, known)
    for field, listed in (("on", boat.coats), ("off", boat.hatches), ("after", boat.hatches)):
        table = "coat" if field == "on" else "hatch"
        known = names_for(boat, table, field)
        for number, piece in enumerate(listed):
            for name in getattr(piece, field):
                if name not in known:
                    what = REFERS[(table, field)].what
                    yield unknown((table, number, field), what, name, known)


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
        for field in ("file", "mesh", "marks"):
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
        mend = 'Write height = "154 mm", or both aft and fore.'
        beside = "Enter one height, or the draughts aft and fore; not both."
        yield Mistake(("waterline",), what, mend, fields=("height",), beside=beside)
    elif sloping and (line.aft is None or line.fore is None):
        missing = "aft" if line.aft is None else "fore"
        mend = f'Add {missing} = {{ x = "…", height = "…" }}.'
        what, beside = f"'{missing}' is missing", "Enter the draught at the other end too."
        yield Mistake(("waterline",), what, mend, fields=(missing,), beside=beside)
    elif line.aft and line.fore and line.aft.x == line.fore.x:
        what = "aft and fore are the same place"
        yield Mistake(("waterline",), what, "Measure at two places far from each other.")


def _regions(boat: Boat) -> Mistakes:
    """Yield regions whose skin cannot be worked out."""
    for number, skin in enumerate(boat.regions):
        path: Path = ("region", number)
        is_known = has_density(skin)
        is_weighed = skin.mass is not None or skin.by_ends is not None
        has_volume = is_weighed and (is_known or skin.hung is not None)
        is_wall = getattr(skin, "closed_walls", False)
        is_thick = skin.thickness is not None or bool(skin.walls)
        if not (is_thick or has_volume or is_wall or skin.sealed):
            what = "the skin has no thickness, and no mass and material to find it from"
            mend = 'Add thickness = "…", or mass and material.'
            beside = "Enter it, or the mass and the material of the skin."
            yield Mistake(path, what, mend, fields=("thickness",), beside=beside)
        if skin.sealed and not is_weighed and not is_thick:
            what = "the mass of its walls is missing"
            mend = 'Add mass = "…", or thickness and material.'
            beside = "Enter the mass of its walls, or their thickness and material."
            yield Mistake(path, what, mend, fields=("mass",), beside=beside)
        for row, spot in enumerate(skin.walls):
            if spot.at is not None and spot.z is not None:
                what = "at and z both say where the spot lies"
                beside = "It is entered where it lies already. Keep one of the two."
                yield Mistake((*path, "walls", row, "z"), what, "Keep one.", beside=beside)
        if not is_weighed and not is_known:
            what = "it has neither a mass nor a material to work it out from"
            mend, beside = 'Add mass = "…" or material = "…".', "Enter its mass or its material."
            yield Mistake(path, what, mend, fields=("mass",), beside=beside)


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
            beside = "Its round ends alone are longer. Enter the length over the ends."
            yield Mistake((*path, "length"), what, mend, beside=beside)
        if cylinder.pair and not cylinder.y:
            beside = "Enter how far to port one of the two lies."
            what = "a pair needs a place to port"
            yield Mistake((*path, "pair"), what, "Add y.", beside=beside)
        if cylinder.mass is None and not has_density(cylinder):
            what = "it has neither a mass nor a material to work it out from"
            mend = 'Add mass = "…", of the tube with its caps.'
            beside = "Enter the mass of the tube with its caps, or its material."
            yield Mistake(path, what, mend, fields=("mass",), beside=beside)


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
                mend, beside = f"Add a line: {field} = …", f"A {tank.kind} tank needs it."
                yield Mistake(path, what, mend, fields=(field,), beside=beside)
        if tank.kind == "piston" and tank.shape != "round":
            what, beside = "a piston tank is round", "A piston tank is round: choose that shape."
            yield Mistake((*path, "shape"), what, 'Write shape = "round".', beside=beside)
        if tank.kind == "open":
            for field in PISTON:
                if getattr(tank, field) is not None:
                    what = f"only a piston tank has a {field}"
                    mend = 'Take it out, or write kind = "piston".'
                    beside = "Only a piston tank has it. Leave it empty, or choose that kind."
                    yield Mistake((*path, field), what, mend, beside=beside)
        if not tank.inside and tank.mass is None and not (tank.wall and has_density(tank)):
            what = "a free-standing tank needs a mass, or a wall and a material"
            mend = 'Add mass = "…", or inside = "…" with its cylinder.'
            beside = "Enter its mass, its wall and material, or the cylinder in which it lies."
            yield Mistake(path, what, mend, fields=("mass",), beside=beside)
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


def _spaces(boat: Boat) -> Mistakes:
    """Yield kept-clear spaces and pockets whose sides are not told, or told twice."""
    spaces = [("keep_clear", boat.keep_clear), ("pocket", boat.pockets)]
    for key, number, space in ((k, i, s) for k, listed in spaces for i, s in enumerate(listed)):
        sides = [is_given(side) for side in (space.y_starboard, space.y_port)]
        is_whole = any(sides) is False if space.breadth else all(sides)
        if not is_whole:
            what = "it needs either a breadth or both y_starboard and y_port"
            beside = "Enter its breadth, or both its sides; not both."
            path: Path = (key, number)
            mend = "Write one or the other."
            yield Mistake(path, what, mend, fields=("breadth",), beside=beside)


def _limits(boat: Boat) -> Mistakes:
    """Yield limits that the table does not hold."""
    known = [row["key"] for row in _rows("limits")]
    for name in boat.limits:
        if known and name not in known:
            yield unknown(("limits", name), "limit", name, known)

"""The boat file of a starter boat, piece by piece, as a careful person writes one."""

from collections.abc import Iterator
from dataclasses import dataclass

from trimdive.data import row
from trimdive.estimates.starter.balance import Ballast, Bar, Block
from trimdive.estimates.starter.figures import exact_mass, number
from trimdive.estimates.starter.meshed import DrawnHull, region_piece
from trimdive.estimates.starter.names import COAT, HULL, LOWER, TOWER, UPPER
from trimdive.estimates.starter.pieces import Chapter, Line, Piece, lines, quotes
from trimdive.estimates.starter.shape import joint, outline_lines, tower
from trimdive.estimates.starter.standing import moulding, shells, standing_parts, wall_line
from trimdive.estimates.starter.tanks import (
    Tank,
    dry_tank_pieces,
    plant_pieces,
    tank_names,
    tank_pieces,
)
from trimdive.estimates.starter.things import cylinder_mass, middles, things, tube_material, vessels
from trimdive.estimates.starter.wish import Plan, is_measured
from trimdive.fact import fact

COAT_THICK = 0.00022  # paint, primer and filler [m]
COAT_DENSITY = 1500.0  # [kg/m³]
MARKS = (("after mark", 0.12), ("middle", 0.5), ("fore mark", 0.88))  # of the length [-]
GUESS, WORKED_OUT = quotes("guess"), quotes("worked out")


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """All that is written: proportions, tanks, lead and foam."""

    plan: Plan
    tanks: tuple[Tank, ...]
    area: float  # of the hull's outside, for paint; of a dry hull's skin [m²]
    ballast: Ballast


def chapters_of(draft: Draft) -> tuple[Chapter, ...]:
    """Return the boat file."""
    return (
        Chapter(title=None, pieces=tuple(_head(draft.plan))),
        _hull(draft),
        _vessels(draft),
        _in_the_dry(draft),
        *_outside(draft.plan),
        *_ballast(draft),
    )


def _length(plan: Plan, value: float) -> str:
    return quotes(number(value, "length", plan.wish.units))


def _mass(plan: Plan, value: float) -> str:
    return quotes(number(value, "mass", plan.wish.units))


def _head(plan: Plan) -> Iterator[Piece]:
    wish = plan.wish
    scale = lines(scale=quotes(f"1:{wish.scale:g}")) if wish.scale else ()
    top = (*lines(format="1", name=quotes(wish.name)), *scale)
    about = fact("first-boat", name=wish.name, is_taped=wish.taped is not None)
    length = lines(length=_length(plan, wish.length))
    yield Piece(head="", lines=(*top, *length), above=about)
    if wish.units:
        units = {kind: quotes(unit) for kind, unit in wish.units.items()}
        yield Piece(head="[units]", lines=lines(**units))
    if wish.scale:
        whole = quotes(f"{wish.length * wish.scale:.1f} m")
        yield Piece(head="[full_size]", lines=lines(length=whole))
    water = lines(kind=quotes("fresh"), temperature=quotes("15 °C"))
    yield Piece(head="[water]", lines=water)
    yield Piece(head="[waterline]", lines=lines(height=_length(plan, plan.waterline)))
    for name, share in MARKS:
        at = lines(name=quotes(name), x=_length(plan, share * wish.length))
        yield Piece(head="[[mark]]", lines=at)


def _hull(draft: Draft) -> Chapter:
    plan = draft.plan
    if plan.wish.drawn:
        pieces = tuple(_drawn(draft, plan.wish.drawn))
        return Chapter(title=fact("hull-as-drawn"), pieces=pieces)
    is_dry = plan.wish.kind == "dry"
    shell = (_dry_shell(draft),) if is_dry else _wet_shell(plan)
    rest = shells(plan) if is_measured(plan) else (_tower(plan), _coat(draft))
    title = fact("dry-hull") if is_dry else fact("wet-hull")
    return Chapter(title=title, pieces=(*shell, *rest))


def _dry_shell(draft: Draft) -> Piece:
    plan = draft.plan
    return Piece(
        head="[[region]]",
        lines=(
            *lines(name=quotes(HULL), surface=quotes("outline")),
            *outline_lines(plan),
            *lines(sealed="true", material=quotes(plan.wish.material)),
            *_skin_mass(draft),
        ),
    )


def _skin_mass(draft: Draft) -> tuple[Line, ...]:
    """Return the lines of a dry hull's mass."""
    density = float(row("materials", draft.plan.wish.material)["density"])
    mass = draft.area * draft.plan.wall * density
    return lines(mass=_mass(draft.plan, mass), known=GUESS)


def _wet_shell(plan: Plan) -> tuple[Piece, Piece]:
    edge, surface = _length(plan, joint(plan)), quotes("outline")
    made = (*lines(material=quotes(plan.wish.material)), wall_line(plan))
    lower = (*lines(name=quotes(LOWER), surface=surface), *outline_lines(plan), *lines(below=edge))
    upper = lines(name=quotes(UPPER), surface=surface, like=quotes(LOWER), above=edge)
    return (
        Piece(head="[[region]]", lines=(*lower, *made)),
        Piece(head="[[region]]", lines=(*upper, *(moulding(plan) or made))),
    )


def _drawn(draft: Draft, drawn: DrawnHull) -> Iterator[Piece]:
    """Yield a hull that is a mesh, with a plain tower where none was drawn."""
    plan = draft.plan
    skin = lines(material=quotes(plan.wish.material))
    if plan.wish.kind == "dry":
        skin += (*lines(sealed="true"), *_skin_mass(draft))
    elif not drawn.is_wall:
        skin += lines(thickness=_length(plan, plan.wall))
    yield region_piece(drawn, skin=skin)
    if not drawn.has_tower:
        yield _tower(plan, is_guessed=True)
    yield _coat(draft)


def _coat(draft: Draft) -> Piece:
    density = quotes(f"{COAT_DENSITY / 1e3:g} g/cm3")
    mass = _mass(draft.plan, draft.area * COAT_THICK * COAT_DENSITY)
    made = lines(name=quotes(COAT), density=density, mass=mass, known=GUESS)
    return Piece(head="[[coat]]", lines=made)


def _tower(plan: Plan, *, is_guessed: bool = False) -> Piece:
    made = tower(plan)
    at = lines(
        name=quotes(TOWER),
        surface=quotes("prism"),
        outline=quotes("oval"),
        x_aft=_length(plan, made.aft),
        x_fore=_length(plan, made.fore),
        breadth=_length(plan, made.breadth),
    )
    bottom = Line("z_bottom", _length(plan, made.bottom), fact("begins-at-casing"))
    rest = lines(
        z_top=_length(plan, made.top),
        open_below="true",
        material=quotes(plan.wish.material),
        thickness=_length(plan, made.wall),
    )
    above = fact("tower-not-drawn") if is_guessed else None
    return Piece(head="[[region]]", lines=(*at, bottom, *rest), above=above)


def _vessels(draft: Draft) -> Chapter:
    plan, tanks = draft.plan, draft.tanks
    plant = tuple(plant_pieces(plan, tanks))
    if plan.wish.kind == "dry":
        pieces = (*dry_tank_pieces(plan, tanks), *plant)
        return Chapter(title=fact("tanks-in-hull"), pieces=pieces)
    cylinders = (
        _cylinder(plan, name, x) for name, x in zip(vessels(plan), middles(plan), strict=True)
    )
    pieces = (*cylinders, *tank_pieces(plan, tanks), *plant)
    return Chapter(title=fact("cylinders-and-tanks"), pieces=pieces)


def _cylinder(plan: Plan, name: str, x: float) -> Piece:
    return Piece(
        head="[[cylinder]]",
        lines=(
            Line("name", quotes(name), fact("cylinder-whole")),
            *lines(
                outside=_length(plan, plan.outside),
                wall=_length(plan, plan.bore_wall),
                length=_length(plan, plan.span),
                x=_length(plan, x),
                z=_length(plan, plan.axis),
                material=quotes(tube_material(plan)),
                mass=_mass(plan, cylinder_mass(plan)),
                known=GUESS,
            ),
        ),
    )


def _in_the_dry(draft: Draft) -> Chapter:
    plan = draft.plan
    places = tuple(
        (name, tank.x) for name, tank in zip(tank_names(draft.tanks), draft.tanks, strict=True)
    )
    pieces = tuple(things(plan, ("each", "after", "fore"), places))
    return Chapter(title=fact("inside-mass-only", cylinders=plan.cylinders), pieces=pieces)


def _outside(plan: Plan) -> tuple[Chapter, Chapter]:
    """Return what lies in the wet, and what stands above the waterline."""
    wet = things(plan, ("wet",) if plan.wish.kind == "dry" else ("flooded", "wet"), ())
    above = standing_parts(plan) if is_measured(plan) else things(plan, ("above",), ())
    return (
        Chapter(title=fact("in-the-wet"), pieces=tuple(wet)),
        Chapter(title=fact("over-the-waterline"), pieces=tuple(above)),
    )


def _ballast(draft: Draft) -> Iterator[Chapter]:
    """Yield lead and foam, where there are some."""
    if lead := tuple(_bar(draft.plan, bar) for bar in draft.ballast.bars):
        yield Chapter(title=fact("lead-along-keel"), pieces=lead)
    if foam := tuple(_block(draft.plan, block) for block in draft.ballast.blocks):
        yield Chapter(title=fact("foam-in-pairs"), pieces=foam)


def _bar(plan: Plan, bar: Bar) -> Piece:
    inside = lines(inside=quotes(HULL)) if plan.wish.kind == "dry" else ()
    made = lines(
        mass=quotes(exact_mass(bar.mass, plan.wish.units)),
        known=WORKED_OUT,
        x=_length(plan, bar.x),
        z=_length(plan, bar.z),
    )
    return Piece(head="[[lead]]", lines=(*inside, *made, *_box(plan, bar)))


def _block(plan: Plan, block: Block) -> Piece:
    made = lines(
        volume=quotes(number(block.volume, "volume", plan.wish.units)),
        known=WORKED_OUT,
        x=_length(plan, block.x),
        y=_length(plan, block.y),
        z=_length(plan, block.z),
        pair=quotes("both"),
    )
    return Piece(head="[[foam]]", lines=(*made, *_box(plan, block)))


def _box(plan: Plan, one: Bar | Block) -> tuple[Line, ...]:
    """Return the lines of a box."""
    return lines(
        shape=quotes("box"),
        length=_length(plan, one.length),
        breadth=_length(plan, one.breadth),
        height=_length(plan, one.height),
    )

"""What a tape found standing on her, as pieces of a file: towers as shells, others as parts."""

from collections.abc import Iterator

from scipy.special import ellipe

from trimdive.data import table
from trimdive.estimates.starter.figures import fine, number
from trimdive.estimates.starter.pieces import Line, Piece, lines, quotes
from trimdive.estimates.starter.shape import deck_at
from trimdive.estimates.starter.wish import Plan
from trimdive.estimates.tape import Standing
from trimdive.estimates.tape.entered import quoted
from trimdive.fact import fact
from trimdive.units import exact, usual_names, write

SLIM = 3.0  # length of an oval tower over its breadth [-]
WELL_BELOW = 0.25  # of the height of the waterline: so far below the deck a tower begins [-]
OVER = 0.25  # of the height of the waterline: so far over what bears it a part's middle lies [-]


def is_shell(thing: Standing) -> bool:
    """Return whether a thing was measured by girth, height and wall."""
    return thing.volume is None and thing.mass is None


def wall_line(plan: Plan) -> Line:
    """Return the wall of the hull as it stands in the file, with the spots behind it."""
    taped = plan.wish.taped
    if taped is None or not taped.result.readings.walls:
        return Line("thickness", _length(plan, plan.wall))
    spots = fact("mean-of-spots", walls=taped.result.readings.walls)
    return Line("thickness", quotes(fine(plan.wall, plan.wish.units)), spots)


def moulding(plan: Plan) -> tuple[Line, ...]:
    """Return the lines of the upper moulding as weighed; none where it was not."""
    taped = plan.wish.taped
    if taped is None or taped.result.readings.moulding is None or plan.wish.kind == "dry":
        return ()
    mass = exact(taped.result.readings.moulding.mass, "mass", plan.wish.units.get("mass"))
    density = taped.density or taped.result.readings.material.density
    return (
        *lines(material=quotes(plan.wish.material)),
        Line("density", quotes(f"{density:.0f} kg/m3"), fact("scale-and-wall-agree")),
        *lines(mass=quotes(mass), known=quotes("weighed")),
    )


def shells(plan: Plan) -> Iterator[Piece]:
    """Yield what was measured by girth, height and wall."""
    taped = plan.wish.taped
    assert taped is not None
    for name, thing in zip(taped.names, taped.standing, strict=True):
        if not is_shell(thing):
            continue
        long, broad = oval(thing.girth or 0.0)
        deck = max(deck_at(plan, thing.x), plan.waterline)
        below = deck - WELL_BELOW * plan.waterline
        at = lines(
            name=quoted(name),
            surface=quotes("prism"),
            outline=quotes("oval"),
            x_aft=_length(plan, thing.x - long / 2),
            x_fore=_length(plan, thing.x + long / 2),
            breadth=_length(plan, broad),
        )
        bottom = Line("z_bottom", _length(plan, below), fact("begins-at-casing"))
        top = lines(z_top=_length(plan, deck + (thing.height or 0.0)), open_below="true")
        is_open = () if thing.has_top else lines(open_above="true")
        wall = lines(thickness=quotes(fine(thing.wall or 0.0, plan.wish.units)))
        made = (*at, bottom, *top, *is_open, _made_of(plan, thing), *wall)
        yield Piece(head="[[region]]", lines=made)


def oval(girth: float) -> tuple[float, float]:
    """Return length and breadth of the oval of a girth, three to one [m].

    Source: the perimeter of an ellipse, 4 a E(e²).

    Args:
        girth: Round it [m].
    """
    half = girth / (4 * float(ellipe(1 - 1 / SLIM**2)))
    return 2 * half, 2 * half / SLIM


def standing_parts(plan: Plan) -> Iterator[Piece]:
    """Yield what was weighed, or whose volume was measured."""
    taped = plan.wish.taped
    assert taped is not None
    for name, thing in zip(taped.names, taped.standing, strict=True):
        if is_shell(thing):
            continue
        at = (
            *lines(x=_length(plan, thing.x)),
            Line("z", _length(plan, _height(plan, thing)), fact("height-guessed")),
            *lines(through_hull="true"),
        )
        named = Line("name", quoted(name), fact("measured-with-tape"))
        yield Piece(head="[[part]]", lines=(named, *_measured(plan, thing), *at))


def _measured(plan: Plan, thing: Standing) -> Iterator[Line]:
    """Yield the lines of what was measured of a thing."""
    units = plan.wish.units
    if thing.mass is not None:
        mass = exact(thing.mass, "mass", units.get("mass"))
        yield from lines(mass=quotes(mass), known=quotes("weighed"))
    if thing.volume is not None:
        yield Line("volume", quotes(exact(thing.volume, "volume", units.get("volume"))))
    if thing.mass is not None and thing.hung is not None:
        yield Line("hung", quotes(exact(thing.hung, "mass", units.get("mass"))))
    elif thing.mass is None or thing.volume is None:
        yield _made_of(plan, thing)


def _height(plan: Plan, thing: Standing) -> float:
    """Return the height of the middle of a thing whose height was not measured [m]."""
    taped = plan.wish.taped
    assert taped is not None
    bears = max(deck_at(plan, thing.x), plan.waterline)
    for other in taped.standing:
        if is_shell(other) and abs(other.x - thing.x) < oval(other.girth or 0.0)[0] / 2:
            bears = max(bears, deck_at(plan, other.x) + (other.height or 0.0))
    return bears + OVER * plan.waterline


def _made_of(plan: Plan, thing: Standing) -> Line:
    """Return the line of a thing's material."""
    made = thing.material
    names = {entry["key"] for entry in table("materials")}
    if made.name in names and float(made.density) == _density(made.name):
        return Line("material", quotes(made.name))
    unit = plan.wish.units.get("density") or usual_names("density")[0]
    return Line("density", quotes(write(made.density, "density", unit)))


def _density(name: str) -> float:
    return next(float(entry["density"]) for entry in table("materials") if entry["key"] == name)


def _length(plan: Plan, value: float) -> str:
    return quotes(number(value, "length", plan.wish.units))

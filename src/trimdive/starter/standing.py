"""What a tape found standing on her, as lines of a boat file: towers as shells, others as parts."""

from collections.abc import Iterator

from scipy.special import ellipe

from trimdive.data import table
from trimdive.starter.figures import number
from trimdive.starter.shape import deck_at
from trimdive.starter.wish import Plan
from trimdive.tape import Standing
from trimdive.tape.entered import quoted
from trimdive.units import exact, usual_names, write

SLIM = 3.0  # length of an oval tower over its breadth [-]
WELL_BELOW = 0.25  # of the height of the waterline: so far below the deck a tower begins [-]
OVER = 0.25  # of the height of the waterline: so far over what bears it a part's middle lies [-]
FINE = {"mm": 2, "cm": 3, "in": 3, "m": 5, "ft": 4}  # decimals of a wall that was measured


def is_shell(thing: Standing) -> bool:
    """Return whether a thing was measured by girth, height and wall."""
    return thing.volume is None and thing.mass is None


def wall_text(plan: Plan) -> str:
    """Return the wall of the hull as it stands in the file, with the spots behind it."""
    taped = plan.wish.taped
    if taped is None or not taped.result.readings.walls:
        return f'"{number(plan.wall, "length", plan.wish.units)}"'
    spots = ", ".join(_fine(plan, wall) for wall in taped.result.readings.walls)
    return f'"{_fine(plan, plan.wall)}"  # mean of the tape\'s spots: {spots}'


def moulding(plan: Plan) -> list[str]:
    """Return the lines of the upper moulding as weighed; none where it was not."""
    taped = plan.wish.taped
    if taped is None or taped.result.readings.moulding is None or plan.wish.kind == "dry":
        return []
    mass = exact(taped.result.readings.moulding.mass, "mass", plan.wish.units.get("mass"))
    density = taped.density or taped.result.readings.material.density
    return [
        f'material = "{plan.wish.material}"',
        f'density = "{density:.0f} kg/m3"'.ljust(28) + "# at which scale and wall agree best",
        f'mass = "{mass}"',
        'known = "weighed"',
    ]


def shells(plan: Plan) -> Iterator[str]:
    """Yield the lines of what was measured by girth, height and wall."""
    taped = plan.wish.taped
    assert taped is not None
    for name, thing in zip(taped.names, taped.standing, strict=True):
        if not is_shell(thing):
            continue
        long, broad = oval(thing.girth or 0.0)
        deck = max(deck_at(plan, thing.x), plan.waterline)
        below = deck - WELL_BELOW * plan.waterline
        yield from ("[[region]]", f"name = {quoted(name)}", 'surface = "prism"', 'outline = "oval"')
        yield f"x_aft = {_length(plan, thing.x - long / 2)}"
        yield f"x_fore = {_length(plan, thing.x + long / 2)}"
        yield f"breadth = {_length(plan, broad)}"
        yield f"z_bottom = {_length(plan, below):<14}# it begins at the casing"
        yield f"z_top = {_length(plan, deck + (thing.height or 0.0))}"
        yield from ("open_below = true", *([] if thing.has_top else ["open_above = true"]))
        yield from (*_made_of(plan, thing), f'thickness = "{_fine(plan, thing.wall or 0.0)}"', "")


def oval(girth: float) -> tuple[float, float]:
    """Return length and breadth of the oval of a girth, three to one [m].

    Source: the perimeter of an ellipse, 4 a E(e²).

    Args:
        girth: Round it [m].
    """
    half = girth / (4 * float(ellipe(1 - 1 / SLIM**2)))
    return 2 * half, 2 * half / SLIM


def standing_parts(plan: Plan) -> Iterator[str]:
    """Yield the lines of what was weighed, or whose volume was measured."""
    taped = plan.wish.taped
    assert taped is not None
    for name, thing in zip(taped.names, taped.standing, strict=True):
        if is_shell(thing):
            continue
        yield from ("[[part]]", f"name = {quoted(name)}".ljust(34) + "# as measured with the tape")
        if thing.mass is not None:
            yield f'mass = "{exact(thing.mass, "mass", plan.wish.units.get("mass"))}"'
            yield 'known = "weighed"'
        if thing.volume is not None:
            yield f'volume = "{exact(thing.volume, "volume", plan.wish.units.get("volume"))}"'
        if thing.mass is not None and thing.hung is not None:
            yield f'hung = "{exact(thing.hung, "mass", plan.wish.units.get("mass"))}"'
        elif thing.mass is None or thing.volume is None:
            yield from _made_of(plan, thing)
        yield f"x = {_length(plan, thing.x)}"
        yield f"z = {_length(plan, _height(plan, thing)):<16}# guessed: on what bears it"
        yield from ("through_hull = true", "")


def _height(plan: Plan, thing: Standing) -> float:
    """Return the height of the middle of a thing whose height was not measured [m]."""
    taped = plan.wish.taped
    assert taped is not None
    bears = max(deck_at(plan, thing.x), plan.waterline)
    for other in taped.standing:
        if is_shell(other) and abs(other.x - thing.x) < oval(other.girth or 0.0)[0] / 2:
            bears = max(bears, deck_at(plan, other.x) + (other.height or 0.0))
    return bears + OVER * plan.waterline


def _made_of(plan: Plan, thing: Standing) -> list[str]:
    """Return the lines of a thing's material."""
    made = thing.material
    names = {entry["key"] for entry in table("materials")}
    if made.name in names and float(made.density) == _density(made.name):
        return [f'material = "{made.name}"']
    unit = plan.wish.units.get("density") or usual_names("density")[0]
    return [f'density = "{write(made.density, "density", unit)}"']


def _density(name: str) -> float:
    return next(float(entry["density"]) for entry in table("materials") if entry["key"] == name)


def _length(plan: Plan, value: float) -> str:
    return f'"{number(value, "length", plan.wish.units)}"'


def _fine(plan: Plan, value: float) -> str:
    """Return a wall as finely as it was measured."""
    unit = plan.wish.units.get("length") or usual_names("length")[0]
    text = write(value, "length", unit, FINE.get(unit, 3)).split()
    return " ".join([text[0].rstrip("0").rstrip("."), *text[1:]])

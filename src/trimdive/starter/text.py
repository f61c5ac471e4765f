"""The boat file of a starter boat, written as a careful person writes one."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from trimdive.starter.balance import Ballast, Bar, Block
from trimdive.starter.figures import exact_mass, number
from trimdive.starter.meshed import DrawnHull, region_lines
from trimdive.starter.room import dry_tank_side
from trimdive.starter.shape import joint, outline_rows, tower
from trimdive.starter.standing import (
    moulding,
    shells,
    standing_parts,
    wall_text,
)
from trimdive.starter.things import cylinder_mass, middles, things, tube_material, vessels
from trimdive.starter.wish import Plan, is_measured

LOST = 0.04  # of a tank's room, to fittings [-]
NEUTRAL = 0.90  # filling at which she is meant to be neutral [-]
TANK_WALLS = 0.03  # mass of a dry hull's tanks, of her outfit [-]
COAT = 0.00022  # paint, primer and filler [m]
COAT_DENSITY = 1500.0  # [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tank:
    """A tank for ballast water."""

    x: float  # its middle [m]
    length: float  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """All that is written: proportions, tanks, lead and foam."""

    plan: Plan
    tanks: tuple[Tank, ...]
    area: float  # of the hull's outside, for paint; of a dry hull's skin [m²]
    ballast: Ballast


def text_of(draft: Draft) -> str:
    """Return the boat file."""
    parts: Iterable[Iterable[str]] = (
        _head(draft.plan),
        _hull(draft),
        _vessels(draft),
        _in_the_dry(draft),
        _in_the_wet(draft.plan),
        _lead(draft),
        _foam(draft),
    )
    return "\n".join(line for part in parts for line in part).rstrip("\n") + "\n"


def _length(plan: Plan, value: float) -> str:
    return f'"{number(value, "length", plan.wish.units)}"'


def _head(plan: Plan) -> Iterator[str]:
    wish = plan.wish
    yield f"# {wish.name}: a first guess by length, kind of hull and material. Each mass is a guess"
    yield '# until it is weighed; then write the figure, and known = "weighed".'
    yield "# x is measured forward from the aftermost point of the hull, z up from the keel line."
    if wish.taped:
        yield "# Girths, breadths, walls and what stands on her are those of the tape readings."
    yield "format = 1"
    yield f'name = "{wish.name}"'
    if wish.scale:
        yield f'scale = "1:{wish.scale:g}"'
    yield f"length = {_length(plan, wish.length)}"
    yield ""
    if wish.units:
        yield "[units]"
        yield from (f'{kind} = "{unit}"' for kind, unit in wish.units.items())
        yield ""
    if wish.scale:
        yield "[full_size]"
        yield f'length = "{wish.length * wish.scale:.1f} m"'
        yield ""
    yield from ("[water]", 'kind = "fresh"', 'temperature = "15 °C"', "", "[waterline]")
    yield f"height = {_length(plan, plan.waterline)}"
    yield ""
    for name, share in (("after mark", 0.12), ("middle", 0.5), ("fore mark", 0.88)):
        yield from ("[[mark]]", f'name = "{name}"', f"x = {_length(plan, share * wish.length)}", "")


def _hull(draft: Draft) -> Iterator[str]:
    plan = draft.plan
    if plan.wish.drawn:
        yield from _drawn(draft, plan.wish.drawn)
        return
    made = [f'material = "{plan.wish.material}"', f"thickness = {wall_text(plan)}"]
    if plan.wish.kind == "dry":
        yield from ("# ---- the hull: dry, one sealed shell; the tower floods", "")
        yield from ("[[region]]", 'name = "hull"', 'surface = "outline"', *outline_rows(plan))
        yield from ("sealed = true", f'material = "{plan.wish.material}"')
        mass = draft.area * plan.wall * _density(plan)
        yield f'mass = "{number(mass, "mass", plan.wish.units)}"'
        yield from ('known = "guess"', "")
    else:
        edge = _length(plan, joint(plan))
        yield from ("# ---- the hull: wet, two mouldings that meet just above the waterline", "")
        yield from ("[[region]]", 'name = "lower hull"', 'surface = "outline"')
        yield from (*outline_rows(plan), f"below = {edge}", *made, "")
        yield from ("[[region]]", 'name = "upper hull and casing"', 'surface = "outline"')
        yield from ('like = "lower hull"', f"above = {edge}", *(moulding(plan) or made), "")
    if is_measured(plan):
        yield from shells(plan)
        return
    yield from _tower(plan)
    yield from _coat(draft)


def _drawn(draft: Draft, drawn: DrawnHull) -> Iterator[str]:
    """Yield a hull that is a mesh, with a plain tower where none was drawn."""
    plan = draft.plan
    yield from ("# ---- the hull: the mesh as drawn, its lowest point on the keel line", "")
    skin = [f'material = "{plan.wish.material}"']
    if plan.wish.kind == "dry":
        mass = draft.area * plan.wall * _density(plan)
        skin += ["sealed = true", f'mass = "{number(mass, "mass", plan.wish.units)}"']
        skin += ['known = "guess"']
    elif not drawn.is_wall:
        skin += [f"thickness = {_length(plan, plan.wall)}"]
    yield from (*region_lines(drawn, skin=tuple(skin)), "")
    if not drawn.has_tower:
        yield from ("# the mesh shows no tower; this one is guessed", *_tower(plan))
    yield from _coat(draft)


def _coat(draft: Draft) -> Iterator[str]:
    plan = draft.plan
    yield from (
        "[[coat]]",
        'name = "filler, primer, paint"',
        f'density = "{COAT_DENSITY / 1e3:g} g/cm3"',
    )
    mass = draft.area * COAT * COAT_DENSITY
    yield from (f'mass = "{number(mass, "mass", plan.wish.units)}"', 'known = "guess"', "")


def _density(plan: Plan) -> float:
    from trimdive.data import row

    return float(row("materials", plan.wish.material)["density"])


def _tower(plan: Plan) -> Iterator[str]:
    made = tower(plan)
    yield from ("[[region]]", 'name = "tower"', 'surface = "prism"', 'outline = "oval"')
    yield f"x_aft = {_length(plan, made.aft)}"
    yield f"x_fore = {_length(plan, made.fore)}"
    yield f"breadth = {_length(plan, made.breadth)}"
    below = "# it begins at the casing; this only reaches well below it"
    yield f"z_bottom = {_length(plan, made.bottom):<14}{below}"
    yield f"z_top = {_length(plan, made.top)}"
    yield from ("open_below = true", f'material = "{plan.wish.material}"')
    yield from (f"thickness = {_length(plan, made.wall)}", "")


def _vessels(draft: Draft) -> Iterator[str]:
    plan = draft.plan
    if plan.wish.kind == "dry":
        yield from _dry_tanks(draft)
        return
    yield from ("# ---- what keeps the water out, and the tanks in it", "")
    for name, x in zip(vessels(plan), middles(plan), strict=True):
        yield from ("[[cylinder]]", f'name = "{name}"'.ljust(34) + "# tube with caps, rings, rods")
        yield f"outside = {_length(plan, plan.outside)}"
        yield f"wall = {_length(plan, plan.bore_wall)}"
        yield f"length = {_length(plan, plan.span)}"
        yield f"x = {_length(plan, x)}"
        yield f"z = {_length(plan, plan.axis)}"
        yield f'material = "{tube_material(plan)}"'
        yield f'mass = "{number(cylinder_mass(plan), "mass", plan.wish.units)}"'
        yield from ('known = "guess"', "")
    homes = (
        vessels(plan) if plan.cylinders == len(draft.tanks) else vessels(plan) * len(draft.tanks)
    )
    for name, home, tank in zip(tank_names(draft), homes, draft.tanks, strict=True):
        yield from ("[[tank]]", f'name = "{name}"', f'inside = "{home}"')
        yield f"x = {_length(plan, tank.x)}"
        yield f"length = {_length(plan, tank.length)}"
        yield from (f'lost = "{LOST * 100:g} %"', f'neutral = "{NEUTRAL * 100:g} %"', "")


def no_tanks(made: Plan) -> tuple[Tank, ...]:
    """Return stand-ins, so that a draft can be read before the need is known."""
    return tuple(Tank(x=x, length=0.02) for x in middles(made))


def tank_names(draft: Draft) -> tuple[str, ...]:
    """Return the names of the tanks, from aft."""
    if len(draft.tanks) == 1:
        return ("tank",)
    if len(draft.tanks) == 2:
        return ("after tank", "forward tank")
    return tuple(f"tank {k}, from aft" for k in range(1, len(draft.tanks) + 1))


def _dry_tanks(draft: Draft) -> Iterator[str]:
    plan, side = draft.plan, dry_tank_side(draft.plan)
    low, high = plan.axis - side / 2, plan.axis + side / 2
    first, last = draft.tanks[0], draft.tanks[-1]
    yield from (
        "# ---- the tanks: their room is taken out of the hull, and they displace there",
        "",
    )
    yield from ("[[opening]]", 'name = "room of the tanks"')
    yield f"x_aft = {_length(plan, first.x - first.length / 2)}"
    yield f"x_fore = {_length(plan, last.x + last.length / 2)}"
    yield f"breadth = {_length(plan, side)}"
    yield f"z_bottom = {_length(plan, low)}"
    yield from (f"z_top = {_length(plan, high)}", "")
    for name, tank in zip(tank_names(draft), draft.tanks, strict=True):
        yield from ("[[tank]]", f'name = "{name}"', 'shape = "box"')
        yield f"x = {_length(plan, tank.x)}"
        yield f"z = {_length(plan, plan.axis)}"
        yield f"length = {_length(plan, tank.length)}"
        yield f"breadth = {_length(plan, side)}"
        yield f"height = {_length(plan, side)}"
        mass = TANK_WALLS * plan.outfit / len(draft.tanks)
        yield from (f'mass = "{number(mass, "mass", plan.wish.units)}"', 'known = "guess"')
        yield from (f'lost = "{LOST * 100:g} %"', f'neutral = "{NEUTRAL * 100:g} %"', "")


def _in_the_dry(draft: Draft) -> Iterator[str]:
    inside = {0: "hull", 1: "cylinder", 2: "cylinders"}[draft.plan.cylinders]
    yield from (f"# ---- inside the {inside}: mass only", "")
    places = tuple(
        (name, tank.x) for name, tank in zip(tank_names(draft), draft.tanks, strict=True)
    )
    for lines in things(draft.plan, ("each", "after", "fore"), places):
        yield from (*lines, "")


def _in_the_wet(plan: Plan) -> Iterator[str]:
    yield from ("# ---- in the wet", "")
    wet = ("wet",) if plan.wish.kind == "dry" else ("flooded", "wet")
    for lines in things(plan, wet, ()):
        yield from (*lines, "")
    yield from ("# ---- above the waterline", "")
    if is_measured(plan):
        yield from standing_parts(plan)
        return
    for lines in things(plan, ("above",), ()):
        yield from (*lines, "")


def _lead(draft: Draft) -> Iterator[str]:
    if draft.ballast.bars:
        yield from ("# ---- lead along the keel, placed so that she floats level", "")
    for bar in draft.ballast.bars:
        yield from (*_bar(draft.plan, bar), "")


def _bar(plan: Plan, bar: Bar) -> Iterator[str]:
    yield "[[lead]]"
    if plan.wish.kind == "dry":
        yield 'inside = "hull"'
    yield f'mass = "{exact_mass(bar.mass, plan.wish.units)}"'
    yield 'known = "worked out"'
    yield f"x = {_length(plan, bar.x)}"
    yield f"z = {_length(plan, bar.z)}"
    yield 'shape = "box"'
    for key in ("length", "breadth", "height"):
        yield f"{key} = {_length(plan, getattr(bar, key))}"


def _foam(draft: Draft) -> Iterator[str]:
    if draft.ballast.blocks:
        yield from ("# ---- foam in pairs beside the cylinders, just under the waterline", "")
    for block in draft.ballast.blocks:
        yield from (*_block(draft.plan, block), "")


def _block(plan: Plan, block: Block) -> Iterator[str]:
    yield "[[foam]]"
    yield f'volume = "{number(block.volume, "volume", plan.wish.units)}"'
    yield 'known = "worked out"'
    yield f"x = {_length(plan, block.x)}"
    yield f"y = {_length(plan, block.y)}"
    yield f"z = {_length(plan, block.z)}"
    yield from ('pair = "both"', 'shape = "box"')
    for key in ("length", "breadth", "height"):
        yield f"{key} = {_length(plan, getattr(block, key))}"

"""The words for meshes of a boat that are not in order, and for what puts them right."""

from trimdive.fact import Fact
from trimdive.text.said import said, says
from trimdive.text.say import Say

NAMES = {"mm": "millimetres", "cm": "centimetres", "in": "inches", "m": "metres", "ft": "feet"}


@says("mesh-troubled")
def _mesh_troubled(say: Say, name: str, piece: str, trouble: Fact, is_inside_out: bool) -> str:
    counted = " (counted as if turned)" if is_inside_out else ""
    found = said(say, trouble)
    of_it = f" {found[3:]}" if found.startswith("it is ") else f": {found}"
    return f"the mesh of {name} ({piece}){of_it}{counted}"


@says("repair-mesh")
def _repair_mesh(say: Say, mend: Fact, repair: str) -> str:
    asked = f': repair "{repair}"' if repair else ""
    return f"{said(say, mend).rstrip('.')}{asked}."


@says("meshes-overlap")
def _meshes_overlap(say: Say, name: str, common: float) -> str:
    return f"the meshes of {name} overlap by {say.fine(common, 'volume')}, which counts twice"


@says("unite-meshes")
def _unite_meshes(_: Say) -> str:
    return 'Join them: repair "union".'


@says("mesh-overlaps")
def _mesh_overlaps(say: Say, name: str, other: str, common: float) -> str:
    return f"{name} reaches into {other}: {say.fine(common, 'volume')} of it counts twice"


@says("fit-mesh")
def _fit_mesh(_: Say, name: str, after: str | None) -> str:
    cut = f'ut off what lies inside: repair "fit" of {name}.'
    return f"C{cut}" if after is None else f"Name {name} after {after}, and c{cut}"


@says("mesh-in-unit")
def _mesh_in_unit(
    say: Say, name: str, file: str, long: float, unit: str, instead: str, by_mass: bool
) -> str:
    fits = "its volume fits its mass" if by_mass else "it is as long as she is"
    return (
        f"the mesh of {name} ({file}) is {say.length(long)} long when read in "
        f"{NAMES.get(unit, unit)}; {fits} only in {NAMES[instead]}"
    )


@says("mesh-off-zero")
def _mesh_off_zero(
    say: Say, name: str, file: str, forward: float | None, above: float | None
) -> str:
    ways = ((forward, "forward of", "aft of"), (above, "above", "below"))
    begins = " and ".join(
        f"{say.length(abs(off))} {more if off > 0 else less}"
        for off, more, less in ways
        if off is not None
    )
    return (
        f"{name} ({file}) begins {begins} the zero of its drawing, but places are counted from "
        "the aftermost point and from the keel"
    )


@says("put-mesh-at-zero")
def _put_mesh_at_zero(_: Say, with_parts: bool) -> str:
    also = " If parts were placed by the drawing, move them too." if with_parts else ""
    return f"Place its after end and its lowest point at zero.{also}"


@says("print-shut")
def _print_shut(say: Say, name: str, pull: float, air: float) -> str:
    return (
        f"{name} is sealed: it pulls up {say.mass(pull)} under water, and its air above the "
        f"waterline takes {say.volume(air)} more ballast water"
    )


@says("drill-print")
def _drill_print(_: Say, name: str) -> str:
    return "Drill it low and at its highest point, so that water fills it."

"""The words for towers entered as shut, and for meshes of no likely size."""

from trimdive.text.said import says
from trimdive.text.say import Say
from trimdive.text.sentences.meshes_found import NAMES

DRILL = "drill it low and at its highest point, so that water fills it"


@says("region-sealed")
def _region_sealed(say: Say, name: str, air: float) -> str:
    return (
        f"{name} is entered as sealed, with {say.volume(air)} of air above the waterline: as much "
        "more ballast water"
    )


@says("unseal")
def _unseal(_: Say, name: str, stands: bool) -> str:
    also = ", open below" if stands else ""
    return f"If it is a moulding, enter it as not sealed{also}."


@says("drill-if-sealed")
def _drill_if_sealed(_: Say) -> str:
    return f"If it is sealed, {DRILL}."


@says("tower-has-bottom")
def _tower_has_bottom(say: Say, name: str, air: float) -> str:
    return (
        f"{name} is entered with a bottom where it meets the hull: unless it is drilled, "
        f"{say.volume(air)} of air stays in it above the waterline"
    )


@says("enter-open-below")
def _enter_open_below(_: Say, name: str) -> str:
    return "If it is a moulding without a bottom, enter it as open below."


@says("drill-bottom")
def _drill_bottom(_: Say) -> str:
    return f"If it has a bottom, {DRILL}."


@says("mesh-no-size")
def _mesh_no_size(
    say: Say, name: str, file: str, unit: str | None, most: float, boat: float
) -> str:
    return (
        f"{name} ({file}) is {say.fine(most, 'length')} long at most when read in "
        f"{unit or 'its own unit'}; she is {say.length(boat)} long"
    )


@says("write-file-unit")
def _write_file_unit(_: Say, unit: str) -> str:
    return f"Read its file in {NAMES.get(unit, unit)}."


@says("look-at-mesh-unit")
def _look_at_mesh_unit(_: Say) -> str:
    return "Check the unit in which it was drawn."

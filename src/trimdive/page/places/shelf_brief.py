"""The brief on the shelf: what was promised, each as a field of the boat file."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile import set_value
from trimdive.errors import BoatFileError
from trimdive.page.form import Typed
from trimdive.page.typed_fields import table_in
from trimdive.water import waters

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

FIELDS = (
    ("lift_limit", "Heaviest lift, dry", "25 kg"),
    ("car_length", "Longest that fits the car or the box", "1.9 m"),
    ("pond_depth", "Depth of her water", "2 m"),
    ("run_time", "Running time", "45 min"),
    ("speed", "Speed of the model", "0.7 m/s"),
    ("radio", "Radio band and set", "40 MHz"),
    ("finish", "Finish", "weathered, satin"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Promise:
    """One field of the brief."""

    path: str
    label: str
    value: str  # as typed in the file
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """A water by its name, and whether she is to dive in it."""

    name: str
    says: str
    is_wanted: bool


def brief_view(desk: "Desk") -> dict[str, object]:
    """Return the brief as the page shows it."""
    typed, brief = table_in(desk, "brief"), desk.her.boat.brief
    wanted = brief.waters if brief else ()
    return {
        "fields": [
            Promise(
                path=f"brief.{key}",
                label=label,
                value=str(typed.get(key, "")),
                hint=f"such as {hint}",
            )
            for key, label, hint in FIELDS
        ],
        "waters": [
            Named(name=name, says=_says(desk, name), is_wanted=name in wanted) for name in waters()
        ],
    }


def _says(desk: "Desk", name: str) -> str:
    water = waters()[name]
    return f"{water.kind}, {desk.her.boat.units.write(water.celsius, 'temperature')}"


def toggle_water(desk: "Desk", typed: Typed) -> None:
    """Put a water into the brief, or take it out.

    Raises:
        BoatFileError: There is no water of that name.
    """
    name = typed["which"]
    if name not in waters():
        raise BoatFileError("there is no water of that name", name, "Choose one that is there.")
    brief = desk.her.boat.brief
    now = list(brief.waters) if brief else []
    new = [one for one in now if one != name] if name in now else [*now, name]
    says = f"{name} {'removed from' if name in now else 'added to'} the brief"
    desk.edit(says, set_value(desk.written()[0], "brief.waters", new))

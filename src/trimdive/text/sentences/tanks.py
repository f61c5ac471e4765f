"""The words for a tank that is moved, entered elsewhere, or taken out."""

from trimdive.text.said import says
from trimdive.text.say import Say, as_moved, way


def _moved(say: Say, name: str, by: float) -> str:
    return f"Move {as_moved(name)} {say.length(abs(by))} {way(by)[0]}"


@says("move-tank")
def _move_tank(say: Say, name: str, by: float, is_back: bool) -> str:
    return f"{_moved(say, name, by)}{', back to its works' if is_back else ''}."


@says("move-tank-and-works")
def _move_tank_and_works(say: Say, name: str, by: float) -> str:
    return f"{_moved(say, name, by)} with its works."


@says("move-tank-and-lead")
def _move_tank_and_lead(say: Say, name: str, by: float, lead_by: float) -> str:
    lead = f"{say.length(abs(lead_by))} {way(lead_by)[0]}"
    return f"{_moved(say, name, by)} with its works, and all the lead {lead} to balance that."


@says("no-room-for-tank")
def _no_room_for_tank(say: Say, name: str, by: float) -> str:
    return (
        f"{name} would have to be {say.length(abs(by))} {way(by)[0]}, where there is no room for "
        "it: move what is in its way, or the cylinder with everything in it."
    )


@says("take-tank-out")
def _take_tank_out(_: Say, name: str) -> str:
    return f"Remove {name}: the other tanks hold all the water she needs."


@says("enter-at-works")
def _enter_at_works(say: Say, name: str, cylinder: str, x: float) -> str:
    return f"Its works lie in {cylinder}: enter that {name} lies inside it too, {say.place(x)}."

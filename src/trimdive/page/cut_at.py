"""A section across the boat as the page shows it, in her own axes, to be leaned as she leans."""

from trimdive.assessment import Assessment
from trimdive.geometry.solids.build import tank_room
from trimdive.page.scene import ASTERN, INKED, scene_of
from trimdive.pictures.drawings.flat import loops
from trimdive.pictures.drawings.section import AHEAD, Cut, cut_things, cut_walls
from trimdive.pictures.drawings.svg import clean, tag
from trimdive.pictures.drawings.things import shell
from trimdive.pictures.drawings.view import MM

View = dict[str, object]
INSIDE = 1e-3  # a place at the very end is taken so far within [m]


def cut_view(her: Assessment, x: float) -> View:
    """Return the section at a place, seen from aft: port is on the left.

    Args:
        her: The boat.
        x: The place [m]; beyond an end of her, that end.

    Returns:
        The drawing, its place in words and in millimetres, and the line in which each tank is
        cut, port and height [mm], with the tank's number from 0.
    """
    low, high = (float(end) for end in shell(her).bounds[:, 0])
    x = min(max(x, low + INSIDE), high - INSIDE)
    cut = Cut(assessed=her, state=her.surfaced, x=x, ink=scene_of(her).ink, view=ASTERN)
    tanks = [
        {"number": k, **dict(zip("yz", (MM * loop[:, 1:]).round(1).T.tolist(), strict=True))}
        for k, tank in enumerate(her.boat.tanks)
        for loop in loops(tank_room(tank, her.boat, her.files), AHEAD, x)
    ]
    says = f"section {her.boat.place(x)}"
    drawn = [tag("g", class_="tank-waters"), *cut_things(cut), *cut_walls(cut)]
    return {
        "x": round(MM * x, 1),
        "at": her.boat.units.write(her.boat.along(x), "length"),
        "says": says,
        "svg": tag("g", tag("title", clean(says)), *drawn, class_="section inked", **INKED),
        "tanks": tanks,
    }

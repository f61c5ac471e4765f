"""What stands in the boat file of a first boat beside its figures."""

from trimdive.estimates.starter.figures import fine
from trimdive.text.said import says
from trimdive.text.say import Say

VESSELS = {0: "hull", 1: "cylinder", 2: "cylinders"}
PARTS = {  # what is said beside a part that is usual aboard
    "tank works": "bulkheads, pump or piston, valve, hose",
    "joint lip": "both sides, inside the skin",
    "frames": "sealed ply",
    "masts and aerial": "tubes sealed at the top",
    "stem fittings": "bollards, anchors",
}


@says("first-boat")
def _first_boat(say: Say, name: str, is_taped: bool) -> str:
    taped = "Girths, breadths, walls and upperworks are those of the tape readings."
    rows = (
        f"{name}: a first guess by length, kind of hull and material. Each mass is a guess",
        'until it is weighed; then enter the figure, and known = "weighed".',
        "x is measured forward from the aftermost point of the hull, z up from the keel line.",
        *([taped] if is_taped else []),
    )
    return "\n".join(rows)


@says("dry-hull")
def _dry_hull(say: Say) -> str:
    return "the hull: dry, one sealed shell; the tower floods"


@says("wet-hull")
def _wet_hull(say: Say) -> str:
    return "the hull: wet, two mouldings that meet just above the waterline"


@says("hull-as-drawn")
def _as_drawn(say: Say) -> str:
    return "the hull: the mesh as drawn, its lowest point on the keel line"


@says("tower-not-drawn")
def _tower_not_drawn(say: Say) -> str:
    return "the mesh shows no tower; this one is guessed"


@says("begins-at-casing")
def _begins_at_casing(say: Say) -> str:
    return "it begins at the casing; this only reaches well below it"


@says("mean-of-spots")
def _mean_of_spots(say: Say, walls: tuple[float, ...]) -> str:
    spots = ", ".join(fine(wall, say.units.own) for wall in walls)
    return f"mean of the tape's spots: {spots}"


@says("scale-and-wall-agree")
def _scale_and_wall(say: Say) -> str:
    return "at which scale and wall agree best"


@says("measured-with-tape")
def _measured(say: Say) -> str:
    return "as measured with the tape"


@says("height-guessed")
def _height_guessed(say: Say) -> str:
    return "guessed: on what supports it"


@says("cylinders-and-tanks")
def _cylinders(say: Say) -> str:
    return "what keeps the water out, and the tanks in it"


@says("cylinder-whole")
def _cylinder(say: Say) -> str:
    return "tube with caps, rings, rods"


@says("plant-guessed")
def _plant(say: Say) -> str:
    return "guessed"


@says("tanks-in-hull")
def _tanks_in_hull(say: Say) -> str:
    return "the tanks: their room is taken out of the hull, and they displace there"


@says("inside-mass-only")
def _inside(say: Say, cylinders: int) -> str:
    return f"inside the {VESSELS[cylinders]}: mass only"


@says("usual-battery")
def _battery(say: Say, volts: float, charge: float) -> str:
    about = say.write(volts, "voltage", 1).replace(".0 ", " ")
    return f"about {about} {charge:.1f} Ah; lay it low"


@says("usual-motor")
def _motor(say: Say, power: float) -> str:
    return f"some {power:.0f} W in use"


@says("usual-part")
def _part(say: Say, name: str) -> str:
    return PARTS.get(name, "")


@says("in-the-wet")
def _wet(say: Say) -> str:
    return "in the wet"


@says("over-the-waterline")
def _over(say: Say) -> str:
    return "above the waterline"


@says("lead-along-keel")
def _lead(say: Say) -> str:
    return "lead along the keel, placed so that she floats level"


@says("foam-in-pairs")
def _foam(say: Say) -> str:
    return "foam in pairs beside the cylinders, just under the waterline"

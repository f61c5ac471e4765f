"""What was guessed of a mesh file and why, and what each repair did."""

from trimdive.text.said import says
from trimdive.text.say import Say


def _metric(length: float) -> str:
    """Return a length: in metres from one on, else in millimetres; her own unit is not known.

    >>> _metric(1.5), _metric(0.061)
    ('1.5 m', '61 mm')
    """
    return f"{length:.3g} m" if length >= 1 else f"{length * 1e3:.3g} mm"


@says("as-long-as-wanted")
def _as_wanted(say: Say, number: float, unit: str, length: float, wanted: float) -> str:
    return f"{number:.4g} {unit} is {length:.4g} m; {wanted:.4g} m is wanted"


@says("length-by-unit")
def _by_unit(say: Say, number: float, length: float, others: tuple[tuple[str, float], ...]) -> str:
    text = f"its length of {number:.4g} would be {_metric(length)}"
    fits = ", ".join(f"{unit} ({_metric(other)})" for unit, other in others)
    return f"{text}; it may also be {fits}" if others else text


@says("longest-axis")
def _longest(say: Say, longest: str, port: str, is_alike: bool) -> str:
    alike = "alike" if is_alike else "most alike"
    return f"{longest} is the longest; along {port} the two sides are {alike}"


@says("encloses-walls")
def _walls(say: Say, wall: float) -> str:
    return f"it encloses walls on average {wall * 1e3:.1f} mm thick"


@says("encloses-most")
def _most(say: Say) -> str:
    return "it encloses most of the space that it spans"


@says("does-not-close")
def _open(say: Say) -> str:
    return "it does not close"


@says("as-typed")
def _as_typed(say: Say) -> str:
    return "as you say"


@says("as-file-says")
def _as_file_says(say: Say) -> str:
    return "as the file says"


@says("points-welded")
def _welded(say: Say, points: int) -> str:
    return f"weld: {points} points welded to a neighbour"


@says("triangles-dropped")
def _dropped(say: Say, triangles: int) -> str:
    return f"drop: {triangles} triangles dropped"


@says("triangles-turned")
def _turned(say: Say, triangles: int) -> str:
    return f"flip: {triangles} triangles turned to face outward"


@says("holes-capped")
def _capped(say: Say, holes: int, widest: float) -> str:
    if not holes:
        return "cap: no hole is small enough to cap"
    return f"cap: {holes} holes capped, the widest {widest * 1e3:.1f} mm across"


@says("bodies-united")
def _united(say: Say, bodies: int, turned: int, less: float) -> str:
    first = f"{turned} of them turned outward, " if turned else ""
    counted = f"{less * 1e6:.3g} cm³ counted once less"
    if abs(less) < 1e-9:
        counted = "nothing counted less"
    return f"union: {bodies} bodies united, {first}{counted}"

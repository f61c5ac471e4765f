"""Reads what the page's script asks with: places, the slider, where a thing was dragged to."""

from typing import TYPE_CHECKING

from trimdive.page.form import Typed
from trimdive.page.step import Slider
from trimdive.page.trial import entered_place, move
from trimdive.page.views import lowest_filling
from trimdive.pictures.drawings.view import MM
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.findings import Edit

FARTHEST = 1e5  # no place in a boat is farther off than this [mm]
BACK = ("undo", "redo", "load again")  # what shows her as she was


def moved(her: "Assessment", path: str, typed: Typed) -> "tuple[str, tuple[Edit, ...]]":
    """Return a move of a thing to where it was dragged [mm], or to where was typed.

    Raises:
        TrimdiveError: What was typed is no length, or it cannot be moved.
    """
    x, z = (length_of(typed.get(name, "")) for name in ("move_x", "move_z"))
    if text := typed.get("place_x", "").strip():
        x = entered_place(her, path, text, typed.get("place_end", "middle"))
    if text := typed.get("place_z", "").strip():
        z = read(text, "length", her.boat.units.own.get("length"), where=path)
    return move(her, path, x, z, alone=is_alone(typed))


def is_alone(typed: Typed) -> bool:
    """Return whether what goes with a cylinder or tank is to stay where it is."""
    return typed.get("alone") == "1"


def length_of(text: str) -> float | None:
    """Return a length that the page's script tells in millimetres [m]; None where it tells none.

    >>> length_of("1520"), length_of("nan"), length_of("")
    (1.52, None, None)
    """
    try:
        value = float(text)
    except ValueError:
        return None
    return value / MM if abs(value) < FARTHEST else None


def slider_in(typed: Typed) -> Slider:
    """Return where the slider was put; untouched it stands where she lies lowest."""
    return slider_of(typed) if typed.get("touched") else Slider()


def slider_of(typed: Typed) -> Slider:
    """Return where the slider stands; what is no share of the water counts as untouched.

    >>> slider_of({"filling": "0.25", "up": "1"}), slider_of({"filling": "nan"})
    (Slider(filling=0.25, up=True), Slider(filling=None, up=False))
    """
    try:
        filling = float(typed.get("filling", ""))
    except ValueError:
        return Slider()
    return Slider(filling=filling, up=typed.get("up") == "1") if 0 <= filling <= 1 else Slider()


def kept_moment(her: "Assessment", slider: Slider, typed: Typed) -> Slider:
    """Return the slider where it stood, if she was neutral there and will not go under any more.

    Untouched it would jump to tanks full, and what she was would be told of another moment. What is
    taken back, loaded again or changed in another window is shown as it opens.

    Args:
        her: The boat as she is now.
        slider: Where it was put; untouched where nobody did.
        typed: What the form of the page held as something was changed.
    """
    stood = slider_of(typed)
    if not ("field" in typed or typed.get("act", "") not in ("", *BACK)):
        return slider
    if slider.filling is None and stood.filling and lowest_filling(her) == 1.0 > stood.filling:
        return stood
    return slider

"""The words for places: what stands out of the hull, is in a space kept clear, or too far apart."""

from trimdive.text.said import says
from trimdive.text.say import Say, as_moved

WAYS = {"x": ("forward", "aft"), "y": ("to port", "to starboard"), "z": ("up", "down")}


@says("no-hull")
def _no_hull(_: Say) -> str:
    return "no hull is described, so these figures are of her parts alone"


@says("describe-hull")
def _describe_hull(_: Say) -> str:
    return (
        "Add it on the drawing board: a table of lines, an outline with a few breadths, a round "
        "body or a mesh."
    )


@says("out-of-hull")
def _out_of_hull(say: Say, name: str, far: float, x: float, z: float) -> str:
    return (
        f"{name} sticks {say.length(far)} out of the hull, {say.place(x)}, {say.length(z)} above "
        "the keel line"
    )


@says("measure-it-inside")
def _measure_it_inside(_: Say, is_point: bool) -> str:
    return f"Measure its {'place' if is_point else 'place and size'} again."


@says("enter-through-hull")
def _enter_through_hull(_: Say) -> str:
    return "If it should stick out, enter that it passes through the hull."


@says("into-kept-clear")
def _into_kept_clear(say: Say, name: str, deep: float, space: str) -> str:
    return f"{name} reaches {say.length(deep)} into {space}, which must stay clear"


@says("move-out-of")
def _move_out_of(say: Say, name: str, axis: str, by: float) -> str:
    return f"Move {as_moved(name)} {say.length(abs(by))} {WAYS[axis][by < 0]}."


@says("run-too-short")
def _run_too_short(say: Say, what: str, of: str, to: str, far: float, longest: float) -> str:
    return (
        f"the {what} from {of} to {to} must span {say.length(far)}; the longest it may be is "
        f"{say.length(longest)}"
    )


@says("bring-run-nearer")
def _bring_run_nearer(say: Say, what: str, by: float) -> str:
    return f"Bring what it joins {say.length(by)} nearer together, or enter a longer {what}."


@says("no-place-beside")
def _no_place_beside(_: Say) -> str:
    return "There is no room beside it: find another place for it."

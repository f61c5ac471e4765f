"""The words for a shell as it came in, and for what puts it right."""

from math import degrees

from trimdive.text.said import says
from trimdive.text.say import Say


@says("wall-varies")
def _wall_varies(
    say: Say, name: str, least: float, thinnest_at: float, most: float, mean: float
) -> str:
    return (
        f"the wall of {name} runs from {say.length(least)} ({say.place(thinnest_at)}) to "
        f"{say.length(most)}, on the mean {say.length(mean)}; the skin runs from spot to spot"
    )


@says("measure-wall")
def _measure_wall(_: Say) -> str:
    return "Measure more spots, or weigh the piece: mass and density give its whole volume."


@says("shell-bent")
def _shell_bent(say: Say, name: str, off: float, long: float) -> str:
    return f"{name} is bent by {say.length(off)} over {say.length(long)}"


@says("straighten-shell")
def _straighten_shell(_: Say) -> str:
    return "Warm it and tie it to a straight board before frames go in."


@says("shell-twisted")
def _shell_twisted(_: Say, name: str, turn: float) -> str:
    return f"{name} is twisted by {degrees(turn):.1f}° from end to end"


@says("true-shell")
def _true_shell(_: Say) -> str:
    return "Set it true on the board before the halves are joined."


@says("shell-broader")
def _shell_broader(say: Say, name: str, to_port: float, x: float) -> str:
    side = "port" if to_port > 0 else "starboard"
    return f"{name} is {say.length(abs(to_port))} broader to {side}, {say.place(x)}"


@says("find-middle-line")
def _find_middle_line(_: Say) -> str:
    return "Find the true centreline first; set frames and cylinder by it."

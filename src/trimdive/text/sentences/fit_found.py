"""The words for what does not come out of her, and for gaps that are too narrow."""

from collections.abc import Sequence

from trimdive.text.said import says
from trimdive.text.say import Say, as_moved, listed

NAMED = 4  # things named in a sentence; of more only how many [-]
TOUCHES = 5e-5  # a gap less wide is none [m]


@says("opening-short")
def _opening_short(say: Say, name: str, hatch: str, opens: float) -> str:
    return f"{name} does not come out: the opening of {hatch} is {say.length(opens)} long"


@says("in-its-way-out")
def _in_its_way_out(_: Say, name: str, spaces: Sequence[str]) -> str:
    return f"{name} does not come out: {listed(spaces)} {_are(spaces)} in the way"


@says("stays-in")
def _stays_in(_: Say, name: str) -> str:
    return f"{name} does not come out, even with everything else out of its way"


@says("no-way-found")
def _no_way_found(_: Say, name: str) -> str:
    return f"no way out was found for {name}, though not every place was tried"


@says("cut-longer")
def _cut_longer(
    say: Say,
    hatch: str,
    aft: float | None,
    fore: float | None,
    needs: float,
    spaces: Sequence[str],
    first: Sequence[str],
    over: Sequence[str],
) -> str:
    cuts = [f"aft to {say.place(aft)}"] if aft is not None else []
    cuts += [f"forward to {say.place(fore)}"] if fore is not None else []
    does = f"Cut {hatch} longer, {listed(cuts)}" if cuts else f"Make {hatch} longer"
    gone = f", with {listed(spaces)} gone as well," if spaces else ""
    text = f"{does} ({say.length(needs)} in all): then it comes out{gone}{once(first)}."
    if over:
        parted = "it" if len(over) == 1 else "them"
        text += (
            f" The cut runs under {listed(over)}: part {parted} there, or take {parted} off too."
        )
    return text


@says("free-its-way")
def _free_its_way(_: Say, spaces: Sequence[str]) -> str:
    return (
        f"Without {listed(spaces)} it comes out: move one of them, or let the boat open elsewhere."
    )


@says("not-by-length")
def _not_by_length(_: Say) -> str:
    return "A longer opening does not free it: look at its breadth and height, or open elsewhere."


@says("near-skin")
def _near_skin(say: Say, name: str, skin: str, width: float, x: float) -> str:
    if width < TOUCHES:
        return f"{name} touches {skin} {say.place(x)}"
    return f"{name} is only {say.length(width)} clear of {skin} {say.place(x)}"


@says("make-room")
def _make_room(say: Say, name: str, least: float) -> str:
    return f"Move {as_moved(name)}, or take a thinner one: leave {say.length(least)} all round."


@says("near-on-its-way")
def _near_on_its_way(say: Say, name: str, other: str, width: float, x: float) -> str:
    if width < TOUCHES:
        return f"{name} touches {other} as it moves, {say.place(x)}"
    return f"{name} comes within {say.length(width)} of {other} as it moves, {say.place(x)}"


def once(first: Sequence[str]) -> str:
    """Return after what else something can be taken out: " once foam 2 and foam 3 are out".

    Args:
        first: Names of what must be out before it.

    >>> once(()), once(("mast",))
    ('', ' once mast is out')
    """
    if not first:
        return ""
    if len(first) <= NAMED:
        return f" once {listed(first)} {_are(first)} out"
    return f" once {len(first)} other things are out ({listed(first)})"


def _are(names: Sequence[str]) -> str:
    return "are" if len(names) > 1 or "," in names[0] else "is"

"""The words for things that share room, and for the ways in which they are cleared."""

from collections.abc import Sequence

from trimdive.hydrostatics.equilibrium.named import is_zero
from trimdive.text.said import says
from trimdive.text.say import Say, as_moved, listed
from trimdive.text.sentence import capital

Triple = tuple[float, float, float]
LEAST = 5e-5  # a move shorter than this is none [m]
LONG = {"length": "long", "breadth": "broad", "height": "high"}
WHY = {  # a place is named
    "level": "there she is level; measure it",
    "nearest": "the nearest place in it; measure it",
}


def _shared(say: Say, volume: float) -> str:
    """Return a volume [m³]; one that would read as zero with digits that show it."""
    text = say.volume(volume)
    return say.fine(volume, "volume") if is_zero(text) else text


@says("tanks-share-room")
def _tanks_share_room(say: Say, names: tuple[str, str], shared: float, x: float) -> str:
    one, other = names
    room = f"{_shared(say, shared)} of room {say.place(x)}"
    return f"{one} and {other} share {room}: water in it counts twice"


@says("no-room-beside")
def _no_room_beside(_: Say) -> str:
    return "Measure both again: neither has room to move beside the other."


@says("leave-it")
def _leave_it(_: Say) -> str:
    return "Fixing the other faults fixes this too; leave it where it is."


@says("make-smaller")
def _make_smaller(_: Say, name: str) -> str:
    return f"Make {name} smaller, or measure both again."


@says("measure-both")
def _measure_both(_: Say) -> str:
    return "Measure both again."


@says("outside-its-cylinder")
def _outside_its_cylinder(say: Say, name: str, cylinder: str, far: float, x: float) -> str:
    return (
        f"{name} is entered as inside {cylinder} but is {say.length(far)} outside it "
        f"({say.place(x)})"
    )


@says("no-room-in-cylinder")
def _no_room_in_cylinder(_: Say, cylinder: str) -> str:
    return f"Measure its place again: {cylinder} has no room for it."


@says("out-of-its-bore")
def _out_of_its_bore(
    say: Say, name: str, cylinder: str, far: float, volume: float, x: float
) -> str:
    return (
        f"{name} reaches {say.length(far)} out of the room inside {cylinder} "
        f"({_shared(say, volume)} of it, {say.place(x)})"
    )


@says("measure-bore")
def _measure_bore(_: Say) -> str:
    return "Make it smaller, or measure it and the cylinder's bore and caps again."


@says("share-room-inside")
def _share_room_inside(
    say: Say, pair: tuple[Sequence[str], Sequence[str]], shared: float, cylinder: str, x: float
) -> str:
    names = " and ".join(listed(some) for some in pair)
    return (
        f"{names} share {_shared(say, shared)} of room in {cylinder} ({say.place(x)}): one must "
        "go elsewhere"
    )


@says("share-room")
def _share_room(say: Say, name: str, others: Sequence[str], shared: float, x: float) -> str:
    room = f"{_shared(say, shared)} of room {say.place(x)}"
    return f"{name} and {listed(others)} share {room}: it counts twice"


@says("guessed-share-room")
def _guessed_share_room(say: Say, names: Sequence[str], other: str, shared: float) -> str:
    return (
        f"{len(names)} guessed pieces of lead and foam share {_shared(say, shared)} of room with "
        f"{other}: it counts twice"
    )


@says("clear-guessed")
def _clear_guessed(_: Say, other: str, cut: int, out: int, inside: int) -> str:
    return f"{_cleared(other, cut, out, inside)}; then place lead and foam again."


@says("clear-guessed-by-button")
def _clear_guessed_by_button(_: Say, other: str, cut: int, out: int, inside: int) -> str:
    return f"{_cleared(other, cut, out, inside)}; lead and foam are still to be placed again."


def _cleared(other: str, cut: int, out: int, inside: int) -> str:
    """Return what is done with guessed pieces that share room with another thing."""
    does = [f"cut {cut} of them around {other}"] if cut else []
    does += [f"lay {inside} inside {other}"] if inside else []
    does += [f"remove {out}"] if out else []
    return capital(listed(does))


@says("place-anew")
def _place_anew(_: Say, other: str) -> str:
    return f"Place lead and foam again, under Tub: that lays them around {other}."


@says("meets-on-its-way")
def _meets_on_its_way(say: Say, name: str, others: Sequence[str], shared: float, x: float) -> str:
    where = f"{_shared(say, shared)} of its way, {say.place(x)}"
    return f"{name} meets {listed(others)} as it moves ({where})"


@says("clear-its-way")
def _clear_its_way(_: Say, name: str, others: Sequence[str]) -> str:
    return f"Move {as_moved(listed(others))} out of its way, or let {as_moved(name)} move less far."


@says("in-the-skin")
def _in_the_skin(say: Say, name: str, skins: Sequence[str], shared: float, x: float) -> str:
    where = f"{_shared(say, shared)} {say.place(x)}"
    return f"{name} reaches into the skin of {listed(skins)}: {where}"


def _shift(say: Say, shift: Triple, *, is_pair: bool) -> str:
    x, y, z = shift
    words = [say.along(x)] if abs(x) > LEAST else []
    if abs(y) > LEAST and is_pair:
        words.append(f"{say.length(abs(y))} {'outward' if y > 0 else 'inward'} on each side")
    elif abs(y) > LEAST:
        words.append(f"{say.length(abs(y))} to {'port' if y > 0 else 'starboard'}")
    if abs(z) > LEAST:
        words.append(f"{say.length(abs(z))} {'up' if z > 0 else 'down'}")
    return " and ".join(words)


@says("move-piece")
def _move_piece(
    say: Say, name: str, shift: Triple, is_pair: bool, to: float | None, why: str
) -> str:
    where = "" if to is None else f", to {say.place(to)}"
    because = f": {WHY[why]}" if why else ""
    return f"Move {as_moved(name)} {_shift(say, shift, is_pair=is_pair)}{where}{because}."


@says("cut-piece")
def _cut_piece(say: Say, name: str, sides: Sequence[tuple[str, float, float]]) -> str:
    cut = [f"{say.length(to)} {LONG[side]} (now {say.length(now)})" for side, to, now in sides]
    return f"Cut {name} to {listed(cut)}."


@says("take-piece-out")
def _take_piece_out(_: Say, name: str) -> str:
    return f"Remove {name}: she can do without it."


@says("lies-inside")
def _lies_inside(_: Say, name: str, cylinder: str) -> str:
    return f"Enter that it lies inside {cylinder}."


@says("enter-inside-at")
def _enter_inside_at(say: Say, name: str, cylinder: str, x: float, why: str) -> str:
    return f"Enter that {name} lies inside {cylinder}, {say.place(x)}: {WHY[why]}."

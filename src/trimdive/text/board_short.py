"""The Drawing board in a few words: how she stands on it, and each of its pieces in one line."""

from typing import TYPE_CHECKING

from trimdive.text import words
from trimdive.text.say import listed
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimdive.assessment import Assessment
    from trimdive.boatfile.piece import Piece

NAMED = 3  # so many pieces are named, more are counted [-]


def board_headline(own: int, every: int) -> str:
    """Return how much is to be put right: in shape and room, of all that is.

    Args:
        own: Of her shape and her room.
        every: Of her as a whole, as the bar of places counts it.

    >>> board_headline(0, 0), board_headline(0, 18)
    ('Nothing to put right in shape and room', '18 things to put right, none in shape and room')
    >>> board_headline(1, 1), board_headline(3, 18)
    ('1 thing to put right, in shape and room', '18 things to put right, 3 in shape and room')
    """
    if not every:
        return "Nothing to put right in shape and room"
    share = "" if own == every else f"{own} " if own else "none "
    return f"{words.things(every)}, {share}in shape and room"


def board_size(her: "Assessment") -> str:
    """Return how large she is, in a sentence."""
    if not her.hull.skins:
        return "No hull is entered."
    write = her.boat.units.write
    long, broad, high = (float(b - a) for a, b in her.hull.envelope.bounds.T)
    sizes = [f"{write(of, 'length')} {how}" for of, how in
             ((long, "long"), (broad, "broad"), (high, "high"))]  # fmt: skip
    return f"{', '.join(sizes)} over the hull."


def waterline_short(her: "Assessment") -> str:
    """Return the height of her waterline, and how many draught marks she has."""
    line, marks = her.boat.waterline, len(her.boat.marks)
    told = f"{marks} draught {'mark' if marks == 1 else 'marks'}"
    if line is None:
        return f"not entered; {told}"
    height = her.boat.units.write(line.height or line.height_at(0.0), "length")
    where = "above the keel line" if line.height is not None else "at the stern, sloping"
    return f"{height} {where}; {told}"


def names_short(pieces: "Sequence[Piece]", kind: str) -> str:
    """Return the names of pieces, or how many they are where that would be long.

    Args:
        pieces: All of a kind.
        kind: What several of them are called.
    """
    names = [str(getattr(one, "name", "")) for one in pieces]
    return ", ".join(names) if len(names) <= NAMED else f"{len(names)} {kind}"


def tanks_short(her: "Assessment") -> str:
    """Return the names of her tanks, and how much water they hold, as the litres have it."""
    names = names_short(her.boat.tanks, "tanks")
    held = her.boat.units.write(her.need.fitted, "volume")
    return f"{names}: {'hold' if len(her.boat.tanks) > 1 else 'holds'} {held}" if names else ""


def body_plan_words(her: "Assessment", count: int) -> str:
    """Return what is seen on a body plan of so many sections."""
    low, high = (float(x) for x in her.hull.envelope.bounds[:, 0])
    step = her.boat.units.write((high - low) / count, "length")
    return f"Body plan: a section every {step}, after half on the left; cylinders dashed."


def getting_out(stays: int | None) -> str:
    """Return in a sentence whether everything comes out of her, for where the rest is in order.

    Args:
        stays: How many large things do not; None: nobody looked.
    """
    if stays is None:
        return f"Not looked at yet: {NOT_TRIED}."
    if not stays:
        return "Every large thing comes out of her."
    return f"{stays} large {'things do' if stays > 1 else 'thing does'} not come out of her."


NOT_TRIED = "whether everything comes out of her"


def fit_short(
    hatches: int, outs: "Sequence[tuple[str, bool]] | None", *, was_tried: bool = False
) -> str:
    """Return in a line whether large things come out.

    Args:
        hatches: How many are entered.
        outs: Name of each large thing, and whether it comes out; None: nobody looked yet.
        was_tried: Whether it was looked at before the last change.
    """
    if not hatches:
        return "No hatch entered"
    if outs is None:
        tried = "not tried since she changed" if was_tried else "not tried yet"
        return f"{hatches} {'hatches' if hatches > 1 else 'hatch'} entered; {tried}"
    shut = [name for name, comes_out in outs if not comes_out]
    if shut:
        return capital(f"{listed(shut)} {'do' if len(shut) > 1 else 'does'} not come out")
    return "Every large thing comes out" if outs else "Nothing large in the hull"

"""What a placing without an answer lacks, in figures: what is too light or heavy, and its room."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimdive.edits.placing import Hindered

LITTLE = 0.0005  # less than this is not told [kg]


def missing_words(one: "Hindered") -> str:
    """Return by how much she cannot be brought to her waterline, in sentences, or nothing.

    Args:
        one: Why she cannot be placed.
    """
    her, room = one.before, one.room
    write = her.boat.units.write
    off = her.short
    if off > LITTLE:
        lacks = off - room.pull
        text = (
            f"She is {write(off, 'mass')} too light for her waterline. There is room for "
            f"{write(room.lead, 'mass')} of lead, which weighs {write(room.pull, 'mass')} under "
            "water: "
        )
        if lacks > LITTLE:
            return (
                f"{text}{write(lacks, 'mass')} are missing. Lay so much lead inside a cylinder, as "
                "low as it goes, or allow more room for it."
            )
        return f"{text}enough, but not where it would also make her level and stand upright."
    if off < -LITTLE:
        lacks = -off - room.lift - room.out
        text = (
            f"She is {write(-off, 'mass')} too heavy for her waterline. Lead that may be removed "
            f"weighs {write(room.out, 'mass')} under water, and there is room for "
            f"{write(room.foam, 'volume')} of foam, which lifts {write(room.lift, 'mass')}: "
        )
        if lacks > LITTLE:
            return f"{text}something must get {write(lacks, 'mass')} lighter."
        return f"{text}enough, but not where it would also make her level and stand upright."
    return ""

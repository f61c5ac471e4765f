"""Numbers on the drawing and the list in which they are explained."""

from collections.abc import Sequence
from dataclasses import dataclass

from trimdive.assessment import Assessment
from trimdive.boatfile.ref import ref
from trimdive.pictures.drawings.ink import Ink
from trimdive.pictures.drawings.marks import Label
from trimdive.pictures.drawings.svg import tag
from trimdive.pictures.drawings.things import TankWater, Thing
from trimdive.pictures.drawings.view import View

ROW = 4.5  # height of a row of the list [mm of paper]


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the list, and the things that carry its number."""

    number: int  # 0 for a group that is told by its hatch
    words: str
    things: tuple[Thing, ...]


def items(
    assessed: Assessment, things: Sequence[Thing], tanks: Sequence[TankWater]
) -> tuple[Item, ...]:
    """Return the lines of the list; lead and foam are one line each, told by their hatch."""
    write = assessed.boat.units.write
    waters = {
        f"tank[{i}]": f"{write(tank.volume, 'volume')} of water, {100 * tank.share:.0f} % full"
        for i, tank in enumerate(tanks, 1)
    }
    found: list[Item] = []
    for thing in things:
        if thing.look not in ("lead", "foam"):
            words = f"{thing.name}, {waters.get(thing.path, thing.note)}"
            found.append(Item(number=len(found) + 1, words=words, things=(thing,)))
    for kind in ("lead", "foam"):
        group = tuple(thing for thing in things if ref(thing.path).table == kind)
        if group:
            mass = assessed.boat.units.write(assessed.masses.of_kind(kind), "mass")
            count = f"{len(group)} place{'s' if len(group) > 1 else ''}"
            guessed = sum(thing.is_guess for thing in group)
            guess = ", partly guess" if guessed else ""
            guess = ", guess" if guessed == len(group) else guess
            words = f"{kind}, {count}, {mass} in all{guess}"
            found.append(Item(number=0, words=words, things=group))
    return tuple(found)


def number_labels(view: View, numbered: Sequence[tuple[int, Thing]]) -> list[Label]:
    """Return the numbers of things as labels to stand in a row."""
    spots = [(view.at(thing.place), number, thing.path) for number, thing in numbered]
    return [
        Label(x=x, y=y, lines=(f"{number}",), name="number", has_dot=True, path=path)
        for (x, y), number, path in spots
    ]


def list_of(ink: Ink, lines: Sequence[Item], x: float, y: float, width: float) -> tuple[str, float]:
    """Return the list in columns, and how high it is [mm].

    Args:
        ink: Pen and lettering.
        lines: What to write.
        x: Left edge [mm].
        y: Upper edge [mm].
        width: Room for the columns [mm].
    """
    longest = max((ink.breadth(line.words) for line in lines), default=0.0) + ink.mm(10.0)
    count = max(1, int(width // longest))
    rows = -(-len(lines) // count)
    found = []
    for i, line in enumerate(lines):
        left, base = x + (i // rows) * width / count, y + ink.mm(ROW) * (i % rows + 1)
        if line.number:
            found.append(ink.words(left + ink.mm(5.0), base, f"{line.number}", anchor="end"))
        found.append(ink.words(left + ink.mm(7.0), base, line.words))
    return tag("g", *found, class_="list"), rows * ink.mm(ROW)

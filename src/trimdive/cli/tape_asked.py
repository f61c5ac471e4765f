"""Tape readings asked one by one at the terminal, written down as the file that they would be."""

import sys
from collections.abc import Callable

import typer

from trimdive.errors import BoatFileError, TrimdiveError, UnitError
from trimdive.units import read, unit_named


def asked_readings() -> str:
    """Ask for the readings one by one and return them as the text of a file.

    An empty answer goes on to the next subject; a reading that cannot be read is asked again.
    """
    say = typer.echo
    say("Lengths: type a unit with each, or only numbers in the unit that you name now.")
    unit = asked("Unit of lengths", _is_length_unit, "mm")
    lines = [f'name = "{_plain(asked("Her name", None, "Unnamed"))}"']
    lines.append(f'length = "{asked("Length over all", _length(unit))}"')
    lines.append(f'kind = "{asked("Wet or dry hull", one_of("wet", "dry"), "wet")}"')
    lines.append(f'material = "{asked("Material of the hull", is_material, "GRP")}"')
    lines.append(
        f'measured_from = "{asked("Places measured from", one_of("stern", "bow"), "stern")}"'
    )
    say("\nGirths: over the deck from waterline to waterline, five or more along her.")
    lines += ["girth = [", *_girths(unit), "]"]
    say("\nWall above the waterline, at one spot after another; empty when done.")
    walls = _several("Wall", _length(unit))
    if walls:
        lines.append("wall = [" + ", ".join(f'"{wall}"' for wall in walls) + "]")
    lines += ["", "[units]", f'length = "{unit}"']
    mass = asked("\nMass of the upper moulding, if weighed (empty if not)", _mass, "")
    if mass:
        edge = asked("Its lower edge above the waterline (0 if at it)", _length(unit), "0")
        lines += ["", "[moulding]", f'mass = "{mass}"', f'edge = "{edge}"']
    say("\nWhat stands on her: tower, houses, foam above the waterline; an empty name ends.")
    while name := asked("Name", None, ""):
        lines += _standing(_plain(name), unit)
    return "\n".join(lines) + "\n"


def _girths(unit: str) -> list[str]:
    found: list[str] = []
    while True:
        number = len(found) + 1
        at = asked(f"Place of girth {number} (empty when done)", _length(unit), "")
        if not at:
            if len(found) >= 5:
                return found
            typer.echo(f"Five are needed; there are {len(found)}.")
            continue
        girth = asked("  girth there", _length(unit))
        breadth = asked("  breadth at the waterline (empty if not measured)", _length(unit), "")
        across = f', breadth = "{breadth}"' if breadth else ""
        found.append(f'  {{ x = "{at}", girth = "{girth}"{across} }},')


def _standing(name: str, unit: str) -> list[str]:
    lines = ["", "[[standing]]", f'name = "{name}"']
    lines.append(f'x = "{asked("  its middle along her", _length(unit))}"')
    mass = asked("  its mass (empty to give girth, height and wall)", _mass, "")
    if mass:
        lines.append(f'mass = "{mass}"')
        hung = asked("  scale reading hung under water (empty if not)", _mass, "")
        if hung:
            return [*lines, f'hung = "{hung}"']
        return [*lines, f'material = "{asked("  its material", is_material, "GRP")}"']
    for field, words in (("girth", "round it"), ("height", "its height"), ("wall", "its wall")):
        lines.append(f'{field} = "{asked(f"  {words}", _length(unit))}"')
    return lines


def asked(
    words: str, check: Callable[[str], object] | None = None, usual: str | None = None
) -> str:
    """Return an answer that passes the check; asked again until it does.

    Raises:
        BoatFileError: No more answers come.
    """
    while True:
        text = _answer(words, usual)
        if text == usual or check is None:
            return text
        try:
            check(text)
        except TrimdiveError as error:
            typer.echo(f"  {error.what}. {error.mend}")
        else:
            return text


def _answer(words: str, usual: str | None) -> str:
    """Return what is typed.

    Raises:
        BoatFileError: No more answers come, from a file for example.
    """
    try:
        return str(typer.prompt(words, default=usual, show_default=bool(usual))).strip()
    except typer.Abort:
        if sys.stdin.isatty():
            raise
        what, mend = f"no answer came to '{words.strip()}'", "Answer, or name a file."
        raise BoatFileError(what, "the questions", mend) from None


def _several(words: str, check: Callable[[str], object]) -> list[str]:
    found: list[str] = []
    while text := asked(f"{words} {len(found) + 1}", check, ""):
        found.append(text)
    return found


def _length(unit: str) -> Callable[[str], object]:
    return lambda text: read(text, "length", unit)


def _mass(text: str) -> float:
    return read(text, "mass")


def _is_length_unit(text: str) -> object:
    return unit_named(text, "length")


def is_material(text: str) -> object:
    """Return the material of a name.

    Raises:
        BoatFileError: There is none.
    """
    from trimdive.tape.typed import known_material

    return known_material(text, "material")


def one_of(*choices: str) -> Callable[[str], object]:
    """Return the check that an answer is one of some words."""

    def check(text: str) -> None:
        if text not in choices:
            raise UnitError(f"'{text}' is neither", "", f"Write {' or '.join(choices)}.")

    return check


def _plain(text: str) -> str:
    """Return a text without what would end it in the file."""
    return text.replace("\\", "").replace('"', "'")

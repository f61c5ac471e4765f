"""``new``: a first boat file in a folder of its own, from a few answers."""

import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, labelled, line
from trimdive.cli.opening import BOAT_FILE, keep
from trimdive.cli.tape_asked import asked, is_material, one_of
from trimdive.errors import BoatFileError
from trimdive.text.first_boat import first_boat
from trimdive.text.found import what
from trimdive.text.layout import Document
from trimdive.text.meshed_text import taken_as
from trimdive.text.taped_text import by_tape, entry_name, taped_lines
from trimdive.text.words import things
from trimdive.units import read

if TYPE_CHECKING:
    from trimdive.estimates.starter import Starter, Wish
    from trimdive.estimates.tape.readings import Kind

GUESSED = "guess-share"  # what a first boat may have to put right
TAPE_FILE = "tape.toml"
METRIC = {"length": "mm", "mass": "g", "volume": "cm3"}
INCHES = {"length": "in", "mass": "oz", "volume": "in3"}
LENGTH = "Length over all, with its unit"
SAY = (  # after how a mesh was taken
    "Where her size, bow or top is another, add --mesh-unit, --length, --forward, --up."
)
Check = Callable[[str], object]
LENGTHS = ("breadth", "height", "waterline", "wall")
Said = dict[str, str | None]


def _is_length(text: str) -> float:
    return read(text, "length")


def is_scale(text: str) -> float:
    """Return a scale.

    Raises:
        UnitError: It is none.
    """
    return read(text, "ratio")


def wish_of(said: Said, tape: tuple[str, str]) -> "Wish":
    """Return what the builder wants, from options, tape readings and answers.

    Args:
        said: What was typed behind options.
        tape: The text of tape readings and what to call it, or nothing.

    Raises:
        TrimdiveError: An option cannot be read, or something needed is not said.
    """
    from trimdive.estimates.starter import Wish

    base = _from_tape(*tape) if tape[0] else None
    ask = sys.stdin.isatty() and base is None
    name = said["name"] or (base.name if base else None) or answer("Her name", "Unnamed", ask)
    text = said["length"] or (None if base else answer(LENGTH, "", ask, _is_length))
    if not text and base is None:
        mend = 'Enter it as --length "1.4 m", or name tape readings with --tape.'
        raise BoatFileError("her length is missing", "--length", mend)
    units = units_of(said["units"], text or "", base.units if base else {})
    length = read(text, "length", where="--length") if text else 0.0
    wish = base or Wish(name=name, length=length)
    kind = said["kind"] or (
        wish.kind if base else answer("Wet or dry hull", "wet", ask, one_of("wet", "dry"))
    )
    made = said["material"] or (
        wish.material if base else answer("Material of hull", "GRP", ask, is_material)
    )
    scale = said["scale"] or answer("Scale, as 1:50 (empty if none)", "", ask, is_scale)
    figures = {
        key: read(found, "length", where=f"--{key}") for key in LENGTHS if (found := said[key])
    }
    return replace(
        wish,
        name=plain_name(name),
        length=length or wish.length,
        kind=kind_of(kind),
        material=material_of(made),
        scale=read(scale, "ratio", where="--scale") if scale else None,
        units=units,
        **figures,
    )


def plain_name(name: str) -> str:
    """Return a name without what would end it in the file."""
    return name.replace('"', "'").replace("\\", "")


def kind_of(kind: str) -> "Kind":
    """Return the kind of hull.

    Raises:
        BoatFileError: It is neither.
    """
    if kind not in ("wet", "dry"):
        raise BoatFileError(f"'{kind}' is not a kind of hull", "--kind", "Write wet or dry.")
    return "dry" if kind == "dry" else "wet"


def answer(words: str, usual: str, is_asked: bool, check: Check | None = None) -> str:
    """Return an answer, or what is usual where nobody is there to answer."""
    return asked(words, check, usual or (None if words == LENGTH else "")) if is_asked else usual


def units_of(said: str | None, length: str, own: dict[str, str]) -> dict[str, str]:
    """Return the units to write in: as said, else by the unit in which the length was typed.

    Raises:
        BoatFileError: There is no such choice.
    """
    if said is not None and said not in ("metric", "inches"):
        raise BoatFileError(f"'{said}' is no choice", "--units", "Write metric or inches.")
    in_inches = any(mark in length for mark in ("in", "ft", '"', "'", "″", "′"))
    if said is None and own:
        return {**METRIC, **own}
    return dict(INCHES if said == "inches" or (said is None and in_inches) else METRIC)


def material_of(name: str) -> str:
    """Return the name of a material as the table has it.

    Raises:
        BoatFileError: There is none.
    """
    from trimdive.estimates.tape.typed import known_material

    return known_material(name, "--material")


def _from_tape(text: str, name: str) -> "Wish":
    """Return what tape readings say of her.

    Raises:
        TrimdiveError: They cannot be read.
    """
    from trimdive.estimates.starter import wish_by_tape
    from trimdive.estimates.tape import parse

    return wish_by_tape(parse(text, name))


def refuse_both(tape: Path | None, mesh: Path | None) -> None:
    """Refuse two answers to what her hull is.

    Raises:
        BoatFileError: A tape and a mesh were named.
    """
    if tape and mesh:
        reason = "--tape and --mesh both describe her hull"
        raise BoatFileError(reason, "--mesh", "Leave one of them out.")


def tape_text(file: Path | None) -> tuple[str, str]:
    """Return the text of tape readings and what to call it; nothing where no file is named.

    Raises:
        BoatFileError: It cannot be read.
    """
    from trimdive.cli.tape import text_in

    return text_in(file) if file else ("", "")


def written(folder: Path, made: "Starter", tape: str = "") -> Path:
    """Return the boat file, written into a folder that holds none yet.

    Args:
        folder: For the boat.
        made: Her file.
        tape: Tape readings that she is made of, kept beside her.

    Raises:
        BoatFileError: The folder holds a boat, or cannot be written.
    """
    from trimdive.boatfile import save_new

    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        reason = (error.strerror or "it cannot be made").lower()
        raise BoatFileError(reason, str(folder), "Name another folder.") from None
    drawn = made.plan.wish.drawn
    beside = {drawn.file: drawn.data} if drawn else {}
    file = save_new(folder / BOAT_FILE, first_boat(made), beside).path
    if tape and not (folder / TAPE_FILE).exists():
        keep(tape, folder / TAPE_FILE)
    return file


def refuse_a_boat(folder: Path) -> None:
    """Refuse a folder that holds a boat, before anything is asked.

    Raises:
        BoatFileError: It does.
    """
    if (folder / BOAT_FILE).exists():
        reason = "there is a boat in this folder already"
        raise BoatFileError(reason, str(folder), "Name another folder; nothing was changed.")


def new_text(file: Path, made: "Starter") -> list[Block]:
    """Return what ``new`` prints."""
    units, boat = made.boat.units, made.boat
    guesses = sum(
        1 for part in (*boat.parts, *boat.cylinders, *boat.coats) if part.known == "guess"
    )
    battery = f"{made.power.volts:.1f} V {made.power.charge:.1f} Ah"
    return [
        line(f"{file}"),
        line(
            f"{boat.name}: {units.write(made.mass, 'mass')} lifted out, {guesses} masses guessed, "
            f"{units.write(made.lead, 'mass')} of lead; {units.write(made.litres, 'volume')} of "
            f"ballast water. BG {units.write(made.bg, 'length')}, least GM "
            f"{units.write(made.gm, 'length')}. As usual for her length: battery {battery}, motor "
            f"{made.power.power:.0f} W."
        ),
        *([line(f"{taken_as(drawn, units)} {SAY}")] if (drawn := made.plan.wish.drawn) else []),
        *([labelled(taped)] if (taped := list(taped_lines(made))) else []),
        line(f"{_how_she_is(file)} See: trimdive check {file.parent}"),
    ]


def _how_she_is(file: Path) -> str:
    """Return whether she floats and dives as she was written, and what comes next."""
    from trimdive.assessment import assess

    her = assess(file)
    found = her.first_findings
    wrong = [one for one in found if one.weight == "put right" and one.key != GUESSED]
    if wrong:
        return (
            f"{things(len(wrong))} before she floats on her waterline and dives; first: "
            f"{what(her.boat, wrong[0])}."
        )
    return (
        "She floats on her waterline and dives; now weigh what you have, heaviest first, and "
        "enter it in the file."
    )


def new_json(file: Path, made: "Starter") -> Document:
    """Return the answer as one document in SI."""
    return {
        "file": str(file),
        "name": made.boat.name,
        "mass_kg": made.mass,
        "lead_kg": made.lead,
        "litres_m3": made.litres,
        "bg_m": made.bg,
        "gm_least_m": made.gm,
        "power_w": made.power.power,
        "battery_v": made.power.volts,
        "battery_ah": made.power.charge,
        "by_tape_m3": by_tape(made) if made.taped else None,
        "above_waterline": [
            {
                "name": entry_name(made, one),
                "by_tape_m3": one.by_tape,
                "spread_m3": one.spread,
                "boat_file_m3": one.aboard,
            }
            for one in made.taped
        ],
        "girths": [
            {"x_m": one.x, "by_tape_m": one.by_tape, "boat_file_m": one.aboard}
            for one in made.girths
        ],
    }

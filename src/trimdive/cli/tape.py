"""``tape``: litres from a tape before there is any hull, as text and as JSON."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import typer

from trimdive.cli.answer import IN_ORDER, PUT_RIGHT, print_json
from trimdive.cli.layout import Block, Cells, console, heading, labelled, line, table, terms
from trimdive.errors import BoatFileError
from trimdive.text.layout import Document
from trimdive.text.said import said
from trimdive.text.taped_text import say_by
from trimdive.text.words import share
from trimdive.units import number_in, usual_names, write

if TYPE_CHECKING:
    from trimdive.estimates.tape import Readings, TapeResult
    from trimdive.estimates.tape.answer import Share

LARGEST = 2**20  # a person's readings are no longer [bytes]
CLOSE = 0.05  # so close to the rule of thumb that nothing need be said [-]
SHOWN = 3  # causes told


def read_file(file: Path) -> "Readings":
    """Return the readings in a file.

    Raises:
        BoatFileError: It cannot be read, or something in it must be mended.
    """
    from trimdive.estimates.tape import parse

    return parse(*text_in(file))


def text_in(file: Path) -> tuple[str, str]:
    """Return the text of a file of readings, and what to call it.

    Raises:
        BoatFileError: It cannot be read.
    """
    try:
        if file.is_dir():
            file = file / "tape.toml"
        with file.open("rb") as stream:
            data = stream.read(LARGEST + 1)
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise BoatFileError(reason, str(file), "Name a file of tape readings.") from None
    if len(data) > LARGEST:
        raise BoatFileError("it is larger than 1 MB", str(file), "Name a file of tape readings.")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        number = data.count(b"\n", 0, error.start) + 1
        what = f"byte 0x{data[error.start]:02x} is not UTF-8"
        raise BoatFileError(what, f"{file}:{number}", "Save it as UTF-8 in your editor.") from None
    return text, file.name


def show(result: "TapeResult", as_json: bool) -> NoReturn:
    """Print a result and end: 0 in order, 1 where a reading is in doubt."""
    if as_json:
        print_json(tape_json(result))
    else:
        terminal = console()
        for block in tape_text(result):
            terminal.print(block)
    raise typer.Exit(PUT_RIGHT if result.doubts else IN_ORDER)


def tape_text(result: "TapeResult") -> Iterator[Block]:
    """Yield what ``tape`` prints."""
    her = result.readings
    at, end = _length(her, her.along(result.x)), "bow" if her.from_bow else "stern"
    yield line(f"{her.name}: {_length(her, her.length)}, {her.kind} hull, {her.material.name}")
    yield line()
    yield line(
        f"She needs {_volume(her, result.volume)} ± {_volume(her, result.spread)} of ballast "
        f"water, with its centre {at} ± {_length(her, result.x_spread)} from the {end}."
    )
    if her.kind == "wet":
        yield line(_rule_of_thumb(result))
    if result.doubts:
        yield heading("To put right")
        write_fact = partial(said, say_by(her))
        for k, doubt in enumerate(result.doubts, 1):
            yield labelled(
                [(f"{k}.", f"{doubt.path}: {write_fact(doubt.what)} {write_fact(doubt.mend)}")]
            )
    yield heading("Above the waterline")
    head = ["", "volume", "±", "mass", f"from {end}"]
    yield table(head, _rows(result), right=(1, 2, 3, 4))
    yield heading("Lifted out")
    lift = result.lift_out
    yield line(
        f"About {_rough(her, lift.usual)} by her length and kind; usual for such boats: "
        f"{_rough(her, lift.low)} to {_rough(her, lift.high)}."
    )
    yield heading("What would help most")
    yield labelled(_causes(result))
    yield line()
    yield line("± covers 95 cases in 100.")
    yield terms("above-water volume")


def _rows(result: "TapeResult") -> Iterator[Cells]:
    her = result.readings
    for one in result.shares:
        yield [
            _name(her, one),
            _volume(her, one.volume),
            _volume(her, one.spread),
            _mass(her, one.mass),
            _length(her, her.along(one.x)),
        ]
    if len(result.shares) > 1:
        yield [
            "all",
            _volume(her, result.volume),
            _volume(her, result.spread),
            _mass(her, result.mass_above),
            _length(her, her.along(result.x)),
        ]


def _rule_of_thumb(result: "TapeResult") -> str:
    her, thumb = result.readings, result.rule_litres
    off = thumb / result.volume - 1
    if abs(off) < CLOSE:
        return f"The rule of thumb says much the same, {_volume(her, thumb)}."
    much, dense = ("much", "denser") if off > 0 else ("little", "lighter")
    return (
        f"The rule of thumb says {_volume(her, thumb)}, {share(abs(off))} too {much}: it counts "
        f"kilograms, and her upperworks are {dense} than water; only its volume "
        "counts."
    )


def _causes(result: "TapeResult") -> Iterator[tuple[str, str]]:
    say = say_by(result.readings)
    for k, cause in enumerate(result.causes[:SHOWN], 1):
        open_by = _volume(result.readings, cause.spread)
        yield (
            f"{k}.",
            f"{said(say, cause.advice)} (± {open_by} because of it, {share(cause.share)} of the "
            "uncertainty)",
        )


def _name(her: "Readings", one: "Share") -> str:
    return one.name if isinstance(one.name, str) else said(say_by(her), one.name)


def _length(her: "Readings", value: float) -> str:
    return write(value, "length", her.units.get("length") or "mm")


def _mass(her: "Readings", value: float) -> str:
    return write(value, "mass", her.units.get("mass") or "kg")


def _rough(her: "Readings", value: float) -> str:
    """Return a guessed mass to two figures."""
    unit = her.units.get("mass") or "kg"
    figure = float(f"{number_in(value, 'mass', unit):.2g}")
    return f"{figure:g} {unit}"


def _volume(her: "Readings", value: float) -> str:
    return write(value, "volume", her.units.get("volume") or usual_names("volume")[0])


def tape_json(result: "TapeResult") -> Document:
    """Return the answer as one document in SI."""
    lift, her = result.lift_out, result.readings
    write_fact = partial(said, say_by(her))
    return {
        "name": result.readings.name,
        "kind": result.readings.kind,
        "volume_m3": result.volume,
        "spread_m3": result.spread,
        "x_m": result.x,
        "x_spread_m": result.x_spread,
        "rule_of_thumb_m3": result.rule_litres,
        "above_waterline": [
            {
                "name": _name(her, one),
                "volume_m3": one.volume,
                "spread_m3": one.spread,
                "mass_kg": one.mass,
                "x_m": one.x,
            }
            for one in result.shares
        ],
        "lift_out": {"usual_kg": lift.usual, "low_kg": lift.low, "high_kg": lift.high},
        "causes": [
            {
                "group": cause.group,
                "share": cause.share,
                "spread_m3": cause.spread,
                "advice": write_fact(cause.advice),
            }
            for cause in result.causes
        ],
        "put_right": [
            {"where": doubt.path, "what": write_fact(doubt.what), "mend": write_fact(doubt.mend)}
            for doubt in result.doubts
        ],
    }

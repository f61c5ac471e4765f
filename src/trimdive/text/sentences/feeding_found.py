"""The words for batteries, fuses and wires that are not in order, and for what mends them."""

from trimdive.text.said import says
from trimdive.text.say import Say
from trimdive.units import write


def _amps(value: float) -> str:
    """Return a current, without a decimal where it is whole [A]."""
    return write(value, "current", "A", 1).replace(".0 A", " A")


def _square(area: float) -> str:
    """Return the area across a wire's copper [m²]."""
    return f"{area * 1e6:g} mm²"


@says("fuse-too-small")
def _fuse_too_small(_: Say, name: str, fuse: float, draws: float) -> str:
    return f"{name} has a fuse of {_amps(fuse)}; pump and motors draw {_amps(draws)}"


@says("put-in-fuse")
def _put_in_fuse(_: Say, fuse: float, wire: float) -> str:
    return f"Fit {_amps(fuse)}, on copper of {_square(wire)}."


@says("wire-burns-first")
def _wire_burns_first(_: Say, name: str, wire: float, carries: float, fuse: float) -> str:
    return (
        f"{name}: {_square(wire)} of copper carry {_amps(carries)}, but the fuse is "
        f"{_amps(fuse)}: the wire burns first"
    )


@says("fuse-or-wire")
def _fuse_or_wire(_: Say, fuse: float, wire: float) -> str:
    return f"Fit {_amps(fuse)}, or lay {_square(wire)}."


@says("volts-lost")
def _volts_lost(_: Say, name: str, drop: float, volts: float) -> str:
    return f"{drop:.2f} V of {volts:.1f} V are lost in the wires of {name}"


@says("lay-wire")
def _lay_wire(_: Say, wire: float) -> str:
    return f"Lay {_square(wire)}, or shorten them."


@says("empty-when-full")
def _empty_when_full(_: Say, name: str, volts: float, low: float) -> str:
    return (
        f"{name} of {volts:.1f} V counts as empty at {low:.1f} V: she comes up as soon as she is "
        "switched on"
    )


@says("set-low")
def _set_low(_: Say, volts: float) -> str:
    return f"Set its voltage when empty to {volts:.1f} V on her failsafe; then enter it."


@says("low-of-its-sheet")
def _low_of_its_sheet(_: Say) -> str:
    return "Where the data sheet of this battery says another voltage, set and enter that."

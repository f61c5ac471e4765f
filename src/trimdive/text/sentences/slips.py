"""One figure that may have slipped: how it is asked, what to write, and how it slipped."""

from trimdive.fact import Fact
from trimdive.text.said import said, says
from trimdive.text.say import Say

ASKED = {  # how each figure is told, of one thing or of many; what is not here by its name
    "mass": "{name}, mass {was}",
    "hung": "{name}, {was} under water",
    "volume": "{name}, volume {was}",
    "density": "{name}, density {was}",
    "x": "{name}, {was}",
    "x_aft": "after end of {name}, {was}",
    "x_fore": "fore end of {name}, {was}",
    "water_end": "water end of {name}, {was}",
    "y": "{name}, {was} off the centreline",
    "z": "{name}, {was} above the keel line",
    "z_bottom": "underside of {name}, {was} above the keel line",
    "z_top": "top of {name}, {was} above the keel line",
    "length": "{name}, length {was}",
    "breadth": "{name}, breadth {was}",
    "height": "{name}, height {was}",
    "diameter": "{name}, diameter {was}",
    "outside": "{name}, outside {was}",
    "bore": "{name}, bore {was}",
    "wall": "{name}, wall {was}",
    "thickness": "{name}, skin {was} thick",
    "stroke": "{name}, stroke {was}",
}


@says("slip-asked")
def _slip_asked(
    say: Say, name: str, field: str, was: str, end: str | None, would: tuple[str, ...]
) -> str:
    stands = f"{was} from the {end}" if end else was
    pattern = ASKED.get(field, "{name}, '{field}' {was}")
    what = pattern.format(name=name, field=field.replace("_", " "), was=stands)
    return f"{what}: {', or '.join(would)}?"


@says("slip-write")
def _slip_write(say: Say, would: str, why: Fact) -> str:
    return f"Enter {would} ({said(say, why)}), if that is what was measured."


@says("slip-or")
def _slip_or(say: Say, would: str, why: Fact) -> str:
    return f"Or {would} ({said(say, why)}), if that is what was measured."


@says("slip-other-end")
def _slip_other_end(say: Say) -> str:
    return "measured from the other end"


@says("slip-swapped")
def _slip_swapped(say: Say, first: str, second: str) -> str:
    return f"{first} and {second} swapped"


@says("slip-unit")
def _slip_unit(say: Say, meant: str, written: str) -> str:
    return f"{meant} for {written}"


@says("slip-unit-or-point")
def _slip_unit_or_point(say: Say, meant: str, written: str) -> str:
    return f"{meant} for {written}, or the decimal point"


@says("slip-point")
def _slip_point(say: Say) -> str:
    return "the decimal point"


@says("slip-half")
def _slip_half(say: Say) -> str:
    return "half of it was written"


@says("slip-twice")
def _slip_twice(say: Say) -> str:
    return "twice it was written"


@says("slip-full-size")
def _slip_full_size(say: Say) -> str:
    return "full size for model"


@says("slip-scaled-twice")
def _slip_scaled_twice(say: Say) -> str:
    return "scaled twice"

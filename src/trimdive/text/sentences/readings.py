"""What each figure is that was read in the tub."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("row-height")
def _row_height(say: Say, of: str, at: str | float, side: str | None) -> str:
    where = at if isinstance(at, str) else say.place(at)
    return f"{of} at {where}{f', {side}' if side else ''}"


@says("row-pull")
def _row_pull(say: Say, laid: bool, x: float) -> str:
    return f"{'laid, as it pulls,' if laid else 'scale'} {say.place(x)}"


@says("row-shift")
def _row_shift(say: Say, way: str, dived: bool) -> str:
    return f"shift test {way}, {'dived' if dived else 'on the surface'}"


@says("row-mass")
def _row_mass(say: Say) -> str:
    return "whole boat on the scale"


@says("row-litres")
def _row_litres(say: Say, tank: str) -> str:
    return f"water out of {tank}"


@says("row-lies")
def _row_lies(say: Say, of: str, dived: bool, filled: str) -> str:
    angle = {"tips": "trim", "leans": "heel"}.get(of, of)
    return f"{angle}, dived" if dived else f"{angle}, tanks {filled}"

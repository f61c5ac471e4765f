"""Where she will not stand upright: what she does there."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("turns-over")
def _turns_over(say: Say) -> str:
    return "she turns over"


@says("lolls")
def _lolls(say: Say, heel: float) -> str:
    return f"she lolls by up to {say.angle(heel)}, to either side"

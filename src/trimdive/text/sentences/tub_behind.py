"""The words for readings from the tub that her list does not count yet."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("readings-not-counted")
def _readings_not_counted(_: Say, left: int, was_corrected: bool) -> str:
    readings, do = ("one reading", "does") if left == 1 else (f"{left} readings", "do")
    newer = " since the list was last corrected" if was_corrected else ""
    return f"{readings} from the tub{newer} {do} not count in her weight list"


@says("take-over-tub")
def _take_over_tub(_: Say) -> str:
    return "Apply the correction from the tub."

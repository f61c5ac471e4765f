"""The words for what her tanks cannot cover by water alone."""

from trimdive.text.said import says
from trimdive.text.say import Say


@says("tanks-lack-water")
def _tanks_lack_water(say: Say, state: str, mass: float) -> str:
    side = "more than they hold" if mass > 0 else "less than stays in them"
    return f"with her {state} she needs {say.mass(abs(mass))} {side} from her tanks"


@says("tanks-lack-moment")
def _tanks_lack_moment(say: Say, state: str, moment: float, far: float) -> str:
    way = "forward" if moment > 0 else "aft"
    return f"with her {state} she needs {say.shift(moment, far)} more {way} from her tanks"


@says("weigh-guesses-or-loose-lead")
def _weigh_guesses_or_loose_lead(_: Say) -> str:
    return (
        "Weigh the guessed parts, heaviest first, or keep as much loose lead at hand for the "
        "first dive."
    )

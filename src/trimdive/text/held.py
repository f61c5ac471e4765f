"""Coming up with a tower still full of water: one sentence, the same wherever it is said."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.ballast.dive.held import LARGE_HEEL
from trimdive.errors import BalanceError
from trimdive.text import words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

WAY_UP = "On the way up"  # what stands over those sentences


def way_up(her: "Assessment") -> tuple[str, ...]:
    """Return what to mind on the way up, in sentences; nothing where she comes up upright.

    A boat that will not go under has no way up.
    """
    if not her.heels_coming_up:
        return ()
    return tuple(text for is_large, text in held_words(her) if is_large)


def held_words(her: "Assessment") -> Iterator[tuple[bool, str]]:
    """Yield whether she leans over coming up with a tower still full, and that in a sentence."""
    try:
        ways = her.held
    except BalanceError as error:
        yield True, f"Coming up with a tower still full of water: {error.what}."
        return
    for name, way in ways.items():
        leaning = [moment for moment in way if abs(moment.state.heel) > LARGE_HEEL]
        upright = [moment for moment in way if moment not in leaning]
        least = min((m.state.gm_t for m in upright), default=0.0)
        gm = her.boat.units.write(least, "length")
        text = f"Her GM falls to {gm} as she comes up with {name} still full of water"
        if leaning:
            lean = max(abs(moment.state.heel) for moment in leaning)
            over = words.heel(her.boat, lean).split(" ")[0]
            text += (
                f". She heels by up to {over} once the tanks are down to "
                f"{words.share(leaning[0].filling)}, until it has drained: blow slowly, and give "
                "it holes low and high"
            )
        yield bool(leaning), f"{text}."

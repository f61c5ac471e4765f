"""The three figures of a moment as the page writes them: large, its word, its ±, and its moment."""

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import how_full, share, trim, weight
from trimdive.pictures.drawings.words import is_blown, is_full
from trimdive.uncertainty import ANY, Halves, halves

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State

MINUS = "−"  # in figures that stand large; a hyphen is too short there
BLOWN, FULL = "tanks blown", "tanks full"
NEAR = 5e-4  # so near to the neutral filling she is neutral, of the room of her tanks [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Large:
    """A figure as the page writes it."""

    name: str
    large: str  # number and unit
    word: str  # which way: "bow down", "light"; "" where there is none
    off: str  # "± 4.6°"; "" where it is not calculated
    says: str  # the moment, and what the figure means then


def larges(her: "Assessment", state: "State", *, is_certain: bool = True) -> list[dict[str, str]]:
    """Return the three figures of a state.

    Args:
        her: The boat.
        state: How she lies.
        is_certain: Whether their ± are calculated; not while something is dragged.
    """
    uncertainty = halves(her, state) if is_certain else None
    return [asdict(one) for one in (_trim(her, state, uncertainty), _heavy(her, state, uncertainty),
                                    _bg(her, state, uncertainty))]  # fmt: skip


def moment_words(her: "Assessment", state: "State") -> str:
    """Return which moment this is: "tanks full", "at 89 %, neutral", "tanks blown", "at 45 %"."""
    if not her.boat.tanks:
        return "held under" if state.rest.under else "afloat"
    if is_blown(her, state):
        return BLOWN
    if is_full(her, state):
        return FULL
    full = how_full(her.floater, state.rest.waters)
    is_neutral = (
        her.lowest_name == "dived at neutral"
        and abs(full - how_full(her.floater, her.dived.rest.waters)) < NEAR
    )
    return f"at {share(full)}{', neutral' if is_neutral else ''}"


def _trim(her: "Assessment", state: "State", uncertainty: Halves | None) -> Large:
    text, write = trim(her.boat, state.trim_angle), her.boat.units.write
    return Large(
        name="trim",
        large=write(abs(state.trim_angle), "angle"),
        word=text.partition(" ")[2] or text,
        off=_off(her, uncertainty) if uncertainty else "",
        says=moment_words(her, state),
    )


def _off(her: "Assessment", uncertainty: Halves) -> str:
    """Return how far a trim may be off: beyond some 20° nothing is known of it."""
    if uncertainty.trim > ANY:
        return "may be any angle"
    return f"± {her.boat.units.write(uncertainty.trim, 'angle')}"


def _heavy(her: "Assessment", state: "State", uncertainty: Halves | None) -> Large:
    size, _, word = weight(her.boat, state.rest.excess).rpartition(" ")
    says = moment_words(her, state)
    if her.lowest_name == "dived at neutral" and size:
        says += f"; neutral at {share(her.neutral)}"
    if her.lowest_name == "sunk":
        says += ": she sinks"
    elif her.lowest_name == "tanks full" and is_full(her, state):
        says += ": she will not dive"
    return Large(
        name="light or heavy",
        large=size or word,
        word=word if size else "",
        off=f"± {her.boat.units.write(uncertainty.excess, 'mass')}" if uncertainty else "",
        says=says,
    )


def _bg(her: "Assessment", state: "State", uncertainty: Halves | None) -> Large:
    write, says = her.boat.units.write, moment_words(her, state)
    if not state.rest.under and her.boat.tanks:
        says += ", afloat"
    if not state.rest.under and state.gm_t > 0:
        says += f": GM {write(state.gm_t, 'length')}"
    return Large(
        name="BG",
        large=write(state.bg, "length").replace("-", MINUS),
        word="",
        off=f"± {write(uncertainty.bg, 'length')}" if uncertainty else "",
        says=says,
    )

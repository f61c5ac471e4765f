"""The Tub in one line for each of its questions: what stands over each fold of the page."""

from typing import TYPE_CHECKING

from trimdive.text import words
from trimdive.text.sentences.ballast import margin_words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

LEVEL = 5e-4  # tank water that is no farther off than this is where it belongs [m]


def litres_short(her: "Assessment") -> str:
    """Return how much ballast water she needs, what her tanks take, and how far it is off."""
    need, write = her.need, her.boat.units.write
    if need.volume <= 0:
        return "needs none"
    told = [f"needs {write(need.volume, 'volume')}"]
    if her.boat.tanks:
        lack = need.volume - need.fitted
        room = (
            f"{write(lack, 'volume')} too little"
            if lack > 0
            else f"{margin_words(need.margin)} more"
        )
        told.append(f"her tanks take {write(need.fitted, 'volume')}, {room}")
        if abs(need.offset) > LEVEL:
            off = write(abs(need.offset), "length")
            told.append(f"tank water {off} too far {words.way(need.offset)[0]}")
    return "; ".join(told)


def dive_short(her: "Assessment") -> str:
    """Return the largest trim on the way down, and how often she flops."""
    worst = her.down.largest_trim.state
    trim, full = words.trim(her.boat, worst.trim_angle), words.filling(her, worst)
    flops = len(her.down.jumps)
    return f"trim up to {trim}, {full} full; {flops or 'no'} {'flop' if flops == 1 else 'flops'}"


def stability_short(her: "Assessment") -> str:
    """Return what keeps her upright dived and surfaced, and the least of it on the way down."""
    write = her.boat.units.write
    told = [
        f"{her.lowest_name}: BG {write(her.lowest.bg, 'length')}",
        f"tanks blown: GM {write(her.surfaced.gm_t, 'length')}",
    ]
    if her.boat.tanks:
        least = her.down.least_gm.state
        told.append(f"least GM {write(least.gm_t, 'length')}, {words.filling(her, least)} full")
    return "; ".join(told)


def readings_short(her: "Assessment") -> str:
    """Return how many readings there are, and whether the weight list counts them."""
    count = len(her.boat.readings_now)
    if not count:
        return "none recorded"
    counted = any(not one.past for one in her.boat.from_tub)
    is_behind = any(one.key == "tub-behind" for one in her.first_findings)
    done = "the list is corrected" if counted and not is_behind else "the list is not corrected"
    return f"{count} recorded; {done}"

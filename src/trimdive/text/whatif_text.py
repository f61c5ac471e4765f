"""``what-if``: does something of her stay above water, and how does she lie, as text and JSON."""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import listed
from trimdive.text import words
from trimdive.text.documents import common
from trimdive.text.layout import Block, Cells, Document, heading, line, table
from trimdive.text.said import said
from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive.whatif import Case

GROUPS = {
    "tank full": "A tank stuck",
    "tank empty": "A tank stuck",
    "flooded": "Something flooded",
    "tower full": "A tower full of water",
    "left at home": "Left at home",
    "exchanged": "Another part instead",
}


WENT = {  # what went otherwise than planned, of {}
    "tank full": "{} stuck full",
    "tank empty": "{} stuck empty",
    "flooded": "{} flooded",
    "tower full": "{} full of water",
    "left at home": "{} left at home",
    "exchanged": "another {}",
}
WHOLE_NAMES = ("tank full", "tank empty", "exchanged")  # also under the heading of their group


def case_name(case: "Case") -> str:
    """Return what went otherwise than planned: "bow tank stuck full, the rest blown"."""
    return WENT[case.kind].format(case.thing) + _others(case)


def case_short(case: "Case") -> str:
    """Return the same under a heading that tells its kind."""
    return case_name(case) if case.kind in WHOLE_NAMES else case.thing + _others(case)


def _others(case: "Case") -> str:
    """Return how the tanks are that do what they should; "" where there are none."""
    which = "the rest" if case.kind in ("tank full", "tank empty") else "tanks"
    return f", {which} {case.tanks}" if case.others else ""


def what_if_text(her: "Assessment", found: Sequence["Case"]) -> Iterator[Block]:
    """Yield what ``what-if`` prints."""
    yield line(words.title(her))
    yield line(_summary(found))
    if not found:
        return
    for group in dict.fromkeys(GROUPS.values()):
        cases = [case for case in found if GROUPS[case.kind] == group]
        if not cases:
            continue
        yield heading(group)
        head = ["", "above water", "trim", "heel", "lift to spare"]
        yield table(head, (_row(her, case) for case in cases), right=(1, 2, 3, 4))
        for case in cases:
            if case.supposed:
                yield line(f"{case_short(case)}: {said(Say(her.boat), case.supposed)}.")
    yield line()
    yield line(
        "Each is how she settles in still water from upright, everything that floods flooded. "
        "Lift to spare is what she could still carry and stay afloat."
    )


def _summary(found: Sequence["Case"]) -> str:
    sinks = [case_name(case) for case in found if not case.stays_up]
    if not found:
        return "There is nothing aboard that could go wrong."
    if not sinks:
        return "In all of these part of her stays above water."
    least = min(found, key=lambda case: case.spare)
    worst = f"; the worst is {case_name(least)}" if len(sinks) > 1 else ""
    return f"She sinks with {listed(sinks)}{worst}."


def _row(her: "Assessment", case: "Case") -> Cells:
    boat, state = her.boat, case.state
    return [
        case_short(case),
        boat.units.write(case.out, "volume") if case.stays_up else "nothing",
        words.trim(boat, state.trim_angle, short=True),
        words.heel(boat, state.heel, short=True),
        boat.units.write(case.spare, "mass") if case.spare >= 0 else _lacks(her, case),
    ]


def _lacks(her: "Assessment", case: "Case") -> str:
    return f"{her.boat.units.write(-case.spare, 'mass')} too heavy"


def what_if_json(her: "Assessment", found: Sequence["Case"]) -> Document:
    """Return what ``what-if --json`` prints."""
    return {
        **common(her),
        "cases": [
            {
                "name": case_name(case),
                "kind": case.kind,
                "subject": case.subject,
                "tanks": case.tanks,
                "stays_up": case.stays_up,
                "above_water_m3": case.out,
                "spare_kg": case.spare,
                "note": said(Say(her.boat), case.supposed) if case.supposed else None,
                "trim_bow_down_rad": case.state.trim_angle,
                "heel_starboard_rad": case.state.heel,
                "displacement_kg": case.state.displacement_mass,
                "gm_t_m": case.state.gm_t,
                "gm_l_m": case.state.gm_l,
            }
            for case in found
        ],
    }

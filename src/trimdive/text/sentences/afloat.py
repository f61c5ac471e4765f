"""The words for how she floats, and for what brings her to her waterline and level."""

from collections.abc import Sequence

from trimdive.fact import Fact
from trimdive.text.said import said, says
from trimdive.text.say import Say, as_moved, listed, way
from trimdive.text.sentence import capital

FEW = 3  # pieces that are told one by one [-]


@says("off-waterline")
def _off_waterline(say: Say, off: float, marks: Sequence[tuple[str, float]]) -> str:
    each = ", ".join(f"{_high(say, at)} at {name}" for name, at in marks)
    return f"she floats {_high(say, off)} amidships{f' ({each})' if each else ''}"


def _high(say: Say, off: float) -> str:
    """Return how far the water lies over a mark [m]: "3 mm low"."""
    return f"{say.length(abs(off))} {'low' if off > 0 else 'high'}"


@says("floats-steep")
def _floats_steep(_: Say, posture: str) -> str:
    return f"she floats {posture}, nowhere near her waterline"


@says("sinks")
def _sinks(say: Say, excess: float) -> str:
    return f"she sinks: {say.weight(excess)} with tanks blown"


@says("for-her-waterline")
def _for_her_waterline(say: Say, mend: Fact) -> str:
    text = said(say, mend)
    return f"For her waterline: {text[:1].lower()}{text[1:]}"


@says("bring-level")
def _bring_level(_: Say) -> str:
    return "Her weight is right: bring her level, and she floats on her waterline."


@says("weighs-far-off")
def _weighs_far_off(say: Say, short: float) -> str:
    much = f"{say.mass(abs(short))} too {'little' if short > 0 else 'much'}"
    return f"Tanks blown she weighs {much}: look for a slipped figure, or what is not entered."


@says("add-lead-and-shift")
def _add_lead_and_shift(say: Say, lead: float, under: float) -> str:
    return f"{_add(say, lead, under)} and shift heavy parts along her."


@says("add-lead-in-pieces")
def _add_lead_in_pieces(say: Say, lead: float, under: float, x: float) -> str:
    where = say.place(x)
    return f"{_add(say, lead, under)} {where}, in small pieces: there is no room for one bar."


@says("add-lead")
def _add_lead(
    say: Say, lead: float, under: float, x: float, homes: Sequence[str], is_parted: bool
) -> str:
    add, where = _add(say, lead, under), say.place(x)
    if homes:
        add, where = f"Add {say.mass(lead)} of lead", f"inside {' and '.join(homes)}, {where}"
    parted = ", half of it aft and half forward of there" if is_parted else ""
    return f"{add} {where}{parted}, as low as it goes."


def _add(say: Say, lead: float, under: float) -> str:
    """Return that so much lead is added [kg], which weighs so much under water [kg]."""
    return f"Add {say.mass(lead)} of lead ({say.mass(under)} under water)"


@says("take-lead-out")
def _take_lead_out(say: Say, lead: Sequence[tuple[str, float]]) -> str:
    if len(lead) <= FEW:
        parts = listed([f"{say.mass(mass)} of {name}" for name, mass in lead])
    else:
        whole = say.mass(sum(mass for _, mass in lead))
        parts = f"from {lead[0][0]} to {lead[-1][0]}, {whole}"
    return f"Remove from her lead: {parts}."


@says("take-out-of-cylinders")
def _take_out_of_cylinders(say: Say, heavy: float, x: float) -> str:
    return f"Removing {say.mass(heavy)} from her cylinders, {say.place(x)}, does the same."


@says("take-out")
def _take_out(say: Say, heavy: float, x: float | None, lead: float | None) -> str:
    or_lead = "" if lead is None else f", or {say.mass(lead)} of her lead"
    where = "; then shift heavy parts along her" if x is None else f", {say.place(x)}"
    return (
        f"Remove {say.mass(heavy)} from her cylinders{or_lead}{where}. Foam moved down across the "
        "waterline does it too."
    )


@says("will-not-dive")
def _will_not_dive(say: Say, lift: float, angles: tuple[float, float], either: bool) -> str:
    lies = say.lies(angles, either=either)
    return f"she will not dive: {say.weight(-lift)} with tanks full, {lies}"


def lacks(say: Say, room: float | None, weight: float | None) -> str:
    """Return what a boat lacks that stays up: room in the tanks [m³], and weight [kg]."""
    both = [f"the tanks lack {say.volume(room)}"] if room else []
    if weight:
        both.append(f"tanks blown she weighs {say.mass(weight)} too little for her waterline")
    return capital(listed(both) if both else "")


@says("see-lacks")
def _see_lacks(say: Say, room: float | None, weight: float | None) -> str:
    return f"{lacks(say, room, weight)}: fix the other faults first."


@says("find-more-room")
def _find_more_room(say: Say, volume: float) -> str:
    more = say.volume(volume)
    return f"Find {more} more room in the tanks, or remove that volume above the waterline."


@says("trim-afloat")
def _trim_afloat(say: Say, trim: float, of_line: bool) -> str:
    of = " of her waterline" if of_line else ""
    return f"on the surface, tanks blown: trim {say.trim(trim)}{of}"


DIVED = "; on the surface it barely shows"


@says("shift-heavy")
def _shift_heavy(say: Say, moment: float, far: float, is_dived: bool) -> str:
    also = DIVED if is_dived else ""
    return f"Shift heavy parts {way(moment)[0]}, such as {say.shift(moment, far)}{also}."


@says("shift-lead")
def _shift_lead(say: Say, shift: float, is_dived: bool) -> str:
    return f"Shift all the lead {say.along(shift)}{DIVED if is_dived else ''}."


@says("or-shift-heavy")
def _or_shift_heavy(say: Say, moment: float, far: float) -> str:
    return f"Shifting {say.shift(moment, far)} {way(moment)[0]} does the same."


@says("heels")
def _heels(say: Say, state: str, heel: float, either: bool) -> str:
    lying = "on the surface, tanks blown" if state == "tanks blown" else state
    return f"{lying}: heel {say.heel(heel, either=either)}"


@says("shift-across")
def _shift_across(say: Say, side: str, moment: float, far: float) -> str:
    return f"Shift off-centre parts to {side}: {say.shift(moment, far)} in all."


@says("move-to-middle")
def _move_to_middle(say: Say, name: str, off: float) -> str:
    side = "starboard" if off > 0 else "port"
    return f"Move {as_moved(name)} {say.length(abs(off))} to {side}, to the centreline."

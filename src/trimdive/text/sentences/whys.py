"""Figures asked "why?": how they are written, their reasons, where values come from, how sure."""

from trimdive.fact import Fact
from trimdive.findings import Limit
from trimdive.text.found import limit_text
from trimdive.text.said import said, says
from trimdive.text.say import Say, listed
from trimdive.uncertainty.worth import ANY
from trimdive.units import unit_named, write

SPREADS = {  # what of a thing is not known well
    "mass": "the mass of {}",
    "volume": "the volume of {}",
    "along": "the position of {} along her",
    "across": "where {} is across her",
    "height": "the height of {}",
    "litres": "what {} holds",
}


@says("figure")
def _figure(say: Say, value: float, kind: str, digits: int | None = None) -> str:
    return say.write(value, kind, digits)


@says("figure-finer")
def _figure_finer(say: Say, value: float, kind: str, finer: int) -> str:
    if kind == "":
        return f"{value:.4f}"
    if kind == "area":
        return write(value, "area", "m²")
    unit = say.units.shown(kind)
    if kind == "density":
        unit = say.units.own.get("density", "kg/m³")
    return write(value, kind, unit, unit_named(unit, kind).decimals + finer)


@says("figure-along")
def _figure_along(say: Say, x: float) -> str:
    return _figure_finer(say, say.boat.along(x), "length", 1)


@says("figure-place")
def _figure_place(say: Say, x: float) -> str:
    return say.place(x)


@says("figure-share")
def _figure_share(say: Say, share: float) -> str:
    return say.share(share)


@says("figure-weight")
def _figure_weight(say: Say, excess: float) -> str:
    return say.weight(excess)


@says("limit-as-written")
def _limit_as_written(say: Say, limit: Limit) -> str:
    return limit_text(say.boat, limit)


@says("from-work")
def _from_work(say: Say) -> str:
    return "calculated"


@says("from-end")
def _from_end(say: Say, end: str) -> str:
    return f"from the {end}"


@says("from-water")
def _from_water(say: Say, water: str, celsius: float, salt: float) -> str:
    warm = say.write(celsius, "temperature")
    salty = f", {say.write(salt, 'salt')} of salt" if salt else ""
    return f"her water: {water}, {warm}{salty}"


@says("from-waters")
def _from_waters(say: Say, name: str) -> str:
    return f"waters table: {name}"


@says("from-water-dial")
def _from_water_dial(say: Say) -> str:
    return "the water dial"


@says("from-materials")
def _from_materials(say: Say) -> str:
    return "materials table"


@says("from-constants")
def _from_constants(say: Say, unit: str) -> str:
    return f"constants table, {unit}"


@says("from-practice")
def _from_practice(say: Say) -> str:
    return "practice"


@says("from-hull")
def _from_hull(say: Say) -> str:
    return "the hull's surfaces"


@says("from-rule")
def _from_rule(say: Say) -> str:
    return "the rule"


@says("from-measures")
def _from_measures(say: Say, path: str) -> str:
    return f"{path}, by its measures"


@says("from-limits")
def _from_limits(say: Say, is_own: bool) -> str:
    return "the boat file" if is_own else "limits table"


@says("others-lighter")
def _others_lighter(say: Say, count: int) -> str:
    return f"{count} lighter"


@says("others-smaller")
def _others_smaller(say: Say, count: int) -> str:
    return f"{count} smaller"


@says("tank-full")
def _tank_full(say: Say) -> str:
    return "full"


@says("tank-blown")
def _tank_blown(say: Say) -> str:
    return "blown, subtracted"


@says("spread-not-known")
def _spread_not_known(say: Say) -> str:
    return "Its ± is not calculated; it is as sure as its values."


@says("spread-as-values")
def _spread_as_values(say: Say) -> str:
    return "As sure as its values."


@says("spread-roughly")
def _spread_roughly(say: Say) -> str:
    return "Rough: a flat plate's drag is common practice, not measured on her."


@says("spread-of-litres")
def _spread_of_litres(say: Say, half: float) -> str:
    return f"± {say.write(half, 'volume')}: fill it from a measuring jug to be sure."


@says("spread-within")
def _spread_within(say: Say, half: float, quantity: str, most: tuple[tuple[str, str], ...]) -> str:
    start = f"± {_half(say, half, quantity)} in 95 cases in 100"
    if quantity == "angle" and half > ANY:
        start = "It may be any angle"
    largest = listed([SPREADS[what].format(name) for what, name in most]) if most else ""
    return f"{start}. Most of that is {largest}." if largest else f"{start}."


def _half(say: Say, half: float, quantity: str) -> str:
    if quantity == "angle":
        return write(half, "angle", "°", 1)
    return say.write(half, quantity)


@says("why-trim")
def _why_trim(say: Say, trim: float) -> str:
    return f"She trims until B is straight above G: {say.trim(trim)}."


@says("why-bg")
def _why_bg(say: Say, is_under: bool) -> str:
    return (
        f"As she lies, {'wholly under' if is_under else 'afloat'}. Wholly under nothing else keeps "
        "her upright; afloat her waterplane helps, and BG may be below zero. Lead lower, foam "
        "higher or less weight high up increases it."
    )


@says("why-bg-upright")
def _why_bg_upright(say: Say) -> str:
    return (
        "Dived nothing else keeps her upright: G is this far below B. Lead lower, foam higher or "
        "less weight high up increases it."
    )


@says("why-kb-dived")
def _why_kb_dived(say: Say) -> str:
    return "B is the centre of everything solid or sealed. Water inside the hull lifts nothing."


@says("why-kg-dived")
def _why_kg_dived(say: Say) -> str:
    return "Tank water has weight too: high tanks raise G, low ones lower it."


@says("why-gm-empty")
def _why_gm_empty(say: Say) -> str:
    return _why_gm("with her tanks blown")


@says("why-gm-least")
def _why_gm_least(say: Say, filling: float) -> str:
    return _why_gm(f"with her tanks {say.share(filling)} full: the least on the way down")


def _why_gm(where: str) -> str:
    return (
        f"GM, {where}. Only what is solid or sealed counts in the waterline: a wet hull adds "
        "little."
    )


@says("why-draught")
def _why_draught(say: Say) -> str:
    return (
        "She sinks and trims until she displaces her own mass of water, with B straight above G. "
        "That fixes T_0 and θ."
    )


@says("why-light-by")
def _why_light_by(say: Say, filling: float, stays: bool) -> str:
    how = "stays up: she is that much too light" if stays else "sinks: she is that much too heavy"
    return f"With her tanks {say.share(filling)} full and wholly under she {how}."


@says("why-neutral")
def _why_neutral(say: Say) -> str:
    return (
        "At this filling she weighs as much as the water she displaces. Above 100 % her tanks are "
        "too "
        "small, or she is too light."
    )


@says("why-litres")
def _why_litres(say: Say) -> str:
    return (
        "Surfaced, all this is above the water; to dive she must take in the same volume of "
        "water. Its weight does not matter."
    )


@says("why-volume-above")
def _why_volume_above(say: Say) -> str:
    return (
        "Walls, foam and sealed space above her waterline; water inside the hull runs out and "
        "does not count."
    )


@says("why-litres-centre")
def _why_litres_centre(say: Say) -> str:
    return (
        "Tank water replaces the volume above the waterline; with its centre under the centre of "
        "that volume she dives level."
    )


@says("why-tank-water-centre")
def _why_tank_water_centre(say: Say) -> str:
    return (
        "The water that each tank takes on the planned way down, and where it is with the boat "
        "level."
    )


@says("why-off-plumb-line")
def _why_off_plumb_line(say: Say, entered_from: str) -> str:
    turned = " Measured from the bow the difference has the other sign."
    return (
        "Plus: the water is too far forward and trims her bow down dived. Minus: too far aft, "
        f"stern down.{turned if entered_from == 'bow' else ''}"
    )


@says("why-rule-of-thumb")
def _why_rule_of_thumb(say: Say, needed: float) -> str:
    return (
        "It uses the kilograms above the waterline. What matters is their volume, "
        f"{say.write(needed, 'volume')}: foam and sealed space have much volume and little "
        "weight, glass and metal the opposite."
    )


@says("why-tank-volume")
def _why_tank_volume(say: Say) -> str:
    return "Its room, less the air that stays in it full and the water that stays in it blown."


@says("why-tank-centre")
def _why_tank_centre(say: Say) -> str:
    return "The centre of the water it takes between blown and full, boat level."


@says("why-lead")
def _why_lead(say: Say, is_short: bool) -> str:
    short = " More than the lead aboard must come out; foam does the rest." if is_short else ""
    return (
        "Denser water lifts her more, in the same proportion. Lead in the wet displaces water "
        f"too, so it takes a little more. Minus: take lead out.{short}"
    )


@says("why-heave")
def _why_heave(say: Say, is_sinking: bool) -> str:
    return (
        f"She {'sinks' if is_sinking else 'rises'} until drag equals her excess weight or lift; "
        "level, as a flat plate of her plan form."
    )


@says("why-dry-mass")
def _why_dry_mass(say: Say) -> str:
    return "Everything aboard, no water in her tanks."


@says("why-centre-of-gravity")
def _why_centre_of_gravity(say: Say, along: bool) -> str:
    way = "along her" if along else "above the keel line"
    return f"The centre of all masses, tanks empty; {way}."


@says("why-found")
def _why_found(say: Say, note: str, mend: Fact) -> str:
    return f"{note}. To fix it: {said(say, mend)}"

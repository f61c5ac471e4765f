"""Cylinders and rings: what is doubtful or taken of them, what holds caps, what rings break."""

from trimdive.text.said import says
from trimdive.text.say import Say

FIGURES = {
    "stiffness": "stiffness",
    "strength": "strength",
    "held stiffness": "stiffness under a load that stays",
}


@says("wall-thick")
def _wall_thick(say: Say) -> str:
    return "the wall is thick for the formula of collapse: test it"


@says("cap-thick")
def _cap_thick(say: Say, cap: str) -> str:
    return f"{cap} is thick for the formulas of thin plates: its safe depth is approximate"


@says("cap-sags")
def _cap_sags(say: Say, cap: str) -> str:
    return f"{cap} sags by more than half its thickness: it is stiffer than calculated"


@says("from-memory")
def _from_memory(say: Say, figure: str, material: str) -> str:
    return f"{FIGURES[figure]} of {material} from memory"


@says("unknown-when-warm")
def _unknown_when_warm(say: Say, material: str) -> str:
    return f"how {material} weakens with temperature is not known"


@says("ring-loose")
def _ring_loose(say: Say, stretch: float) -> str:
    return f"loose, {say.share(stretch, 1)} stretched"


@says("ring-too-small")
def _ring_too_small(say: Say, stretch: float) -> str:
    return f"too small, {say.share(stretch, 1)} stretched"


@says("squeeze-too-small")
def _squeeze_too_small(say: Say, least: float) -> str:
    return f"squeezed only {say.share(least)} at worst"


@says("squeeze-too-large")
def _squeeze_too_large(say: Say, squeeze: float) -> str:
    return f"squeezed too much: {say.share(squeeze)}"


@says("groove-too-full")
def _groove_too_full(say: Say, fill: float) -> str:
    return f"fills {say.share(fill)} of its groove at worst"


@says("held-by-nothing-known")
def _held_by_nothing_known(say: Say) -> str:
    return "something not entered"


@says("held-by-rings")
def _held_by_rings(say: Say) -> str:
    return "rings alone"


@says("held-as-tried")
def _held_as_tried(say: Say, by: str) -> str:
    return f"{by}, as tested"


@says("held-by-rods")
def _held_by_rods(say: Say, count: int) -> str:
    return f"{count} tie rods"


@says("held-by-screws")
def _held_by_screws(say: Say, count: int) -> str:
    return f"{count} screws"


@says("held-by-glue")
def _held_by_glue(say: Say) -> str:
    return "glue"


@says("between-caps-taken")
def _between_caps_taken(say: Say) -> str:
    return "length between the caps: its length less both caps"


@says("out-of-round-taken")
def _out_of_round_taken(say: Say, share: float) -> str:
    return f"out of round by {say.share(share, 2)} of its radius"


@says("tube-taken")
def _tube_taken(say: Say, material: str) -> str:
    return f"tube of {material}"


@says("cap-thickness-taken")
def _cap_thickness_taken(say: Say, share: float) -> str:
    return f"caps {say.share(share)} of the diameter thick"


@says("cap-material-taken")
def _cap_material_taken(say: Say, material: str) -> str:
    return f"caps of {material}"

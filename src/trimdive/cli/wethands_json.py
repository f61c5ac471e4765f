"""What ``wet-hands`` tells as one JSON document, in SI."""

from trimdive.estimates.wethands import Figure, Known, Piece, Question, Reply, Step
from trimdive.text.layout import Document
from trimdive.text.wethands_causes import ail_of
from trimdive.text.wethands_questions import asking, choices

UNITS = {"volume": "m3", "length": "m", "mass": "kg", "percent": "share", "angle": "rad"}


def wet_hands_json(now: Step) -> Document:
    """Return what ``wet-hands --json`` prints."""
    known, moment = now.known, now.moment
    return {
        "in_order": now.in_order,
        "parted": now.is_parted,
        "mass_kg": known.mass.value,
        "tank_m3": known.tank.value,
        "length_m": known.length.value,
        "density_kg_m3": known.water,
        "bg_m": _figure(known.bg_or_guess),
        "bg_is_guess": known.bg_entered is None,
        "answers": [_reply(one) for one in known.replies],
        "causes": [
            {"key": cause.key, "name": ail_of(cause, known).name, "weight": cause.weight}
            for cause in now.open.causes
        ],
        "next": _question(now.next, known),
        "moment_kg_m": _figure(moment.size) if moment else None,
        "moment_is_bound": moment.at_least if moment else None,
        "bg_found_m": _figure(moment.bg) if moment and moment.bg else None,
        "left_rad": now.left.spread if now.left else None,
        "remedies": [
            {"cause": remedy.cause.key, "pieces": [_piece(one) for one in remedy.pieces]}
            for remedy in now.remedies
        ],
    }


def _figure(one: Figure | None) -> Document | None:
    return None if one is None else {"value": one.value, "spread": one.spread}


def _reply(one: Reply) -> Document:
    return {"key": one.key, "option": one.option, "typed": one.typed, "size": _figure(one.size)}


def _question(one: Question | None, known: Known) -> Document | None:
    if one is None:
        return None
    words = asking(one, known)
    labels = zip(one.options, choices(one), strict=True)
    return {
        "key": one.key,
        "do": words.do,
        "ask": words.ask,
        "options": [{"key": key, "label": label} for key, label in labels],
    }


def _piece(one: Piece) -> Document:
    return {
        "key": one.key,
        "amount": _figure(one.amount),
        "unit": UNITS[one.kind],
        "at_least": one.is_bound,
        "x_m": one.x.value if one.x else None,
        "towards": one.towards or None,
        "block_m": list(one.block) if one.block else None,
        "count": one.count,
        "takes_m3": one.takes.value if one.takes else None,
        "has_m3": one.has.value if one.has else None,
        "lead_kg": one.pull.value if one.pull else None,
        "move_m": one.move.value if one.move else None,
    }

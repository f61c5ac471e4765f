"""What ``wet-hands`` prints at the end: what ails her, the piece to cut, and what is open."""

from collections.abc import Iterator

from trimdive.estimates.wethands import Known, Piece, Remedy, Step
from trimdive.text.layout import Block, heading, labelled, line
from trimdive.text.sentence import capital
from trimdive.text.wethands_causes import Ail, ail_of
from trimdive.text.wethands_questions import asking
from trimdive.text.wethands_words import SHOWN, Shown, likely, per_cent

SURELY = 0.9  # so likely, it is said without "perhaps" [-]


def wet_hands_text(now: Step, shown: Shown) -> Iterator[Block]:
    """Yield what ``wet-hands`` prints of where she stands."""
    known = now.known
    yield line()
    yield line(_title(known, shown))
    if not now.is_parted:
        yield from _half_way(now)
        return
    for k, remedy in enumerate(now.remedies):
        ail = ail_of(remedy.cause, known)
        yield heading(_named(remedy, ail, is_first=k == 0))
        if remedy.cause.key != "in order":
            yield line(f"Signs: {ail.seen}.")
        pieces = list(_pieces(remedy, known, shown))
        yield from (line(text) for text in pieces)
        if ail.not_a_cure:
            yield line(f"Does not help: {ail.not_a_cure}.")
    yield from _how_certain(now, shown)


def _title(known: Known, shown: Shown) -> str:
    litres = shown.write(known.tank.value, "volume")
    return (
        f"{known.mass.value:.4g} kg dry, a tank of {litres}, "
        f"{shown.write(known.length.value, 'length')} long; {_bg(known, shown)}."
    )


def _bg(known: Known, shown: Shown) -> str:
    bg = shown.figure(known.bg_or_guess, "length")
    if known.reply("shift"):
        return f"BG {bg}, from the weight that was moved"
    return f"BG {bg}" if known.bg else f"BG {bg}, a guess from her length"


def _half_way(now: Step) -> Iterator[Block]:
    """Yield what is known so far, the causes open and the next test."""
    yield heading("Known so far")
    entered = [one for one in now.known.replies if one.is_entered]
    yield (
        labelled((f"{one.key}:", one.typed) for one in entered) if entered else line("Nothing yet.")
    )
    yield heading("Still open")
    some = likely(now.open.still_open, now.known)
    yield labelled((f"{share:>4}", name) for name, share in some)
    if now.open.next:
        yield heading("Next")
        question = now.open.next
        words = asking(question, now.known)
        yield line(f"{words.do} {words.ask}")
        before = "".join(f"{one.key}: {one.typed}; " for one in entered)
        yield line(typed=f'To go on later: --answers "{before}{question.key}: …"')


def _named(remedy: Remedy, ail: Ail, *, is_first: bool) -> str:
    share = per_cent(remedy.cause.weight)
    if remedy.cause.key == "in order":
        return f"Nothing to fix ({share})"
    name = capital(ail.name)
    return f"{name} ({share})" if is_first else f"Or: {name} ({share})"


def _pieces(remedy: Remedy, known: Known, shown: Shown) -> Iterator[str]:
    """Yield what to do for a cause, a sentence or two a piece."""
    for k, piece in enumerate(remedy.pieces):
        text = SENTENCES[piece.key](piece, known, shown)
        is_choice = k > 0 and piece.key in CHOICES
        yield f"Or {text[0].lower()}{text[1:]}" if is_choice else text
    if not remedy.pieces:
        yield from WITHOUT.get(remedy.cause.key, ())


CHOICES = ("tank shift", "foam above", "foam over tank", "lead and foam", "bays")
WITHOUT = {
    "in order": (
        "She floats and dives as planned. Weigh her, photograph her, and secure what is loose.",
    ),
    "weight": (
        "Move lead towards the light end, below the waterline. For the amount put small weights "
        "on deck at the high end until she hangs level, or read the angle.",
    ),
    "tank": (
        "Foam above the waterline at the low end, or the tank moved to the other. For the "
        "amount lay small weights on deck at the high end until she hangs level.",
    ),
    "foam": (
        "Remove it, or let water into it. For the amount put small weights on deck "
        "at the high end until she hangs level.",
    ),
    "slack": ("Let her dive with the tank full, or divide it into closed bays.",),
    "tank small": (
        "Remove foam or trapped air above the waterline, find the void, or fit a larger tank. A "
        "spring scale with the tank full shows how much.",
    ),
    "tank large": ("Stop the fill sooner, or put foam above the waterline over the tank.",),
    "side weight": ("Move lead or the battery across, to the side that rises.",),
    "side foam": ("Look for foam or air above the waterline on the side that rises.",),
    "low": ("Move foam from above the waterline to below it at the same place along her.",),
    "high": ("Move foam from below the waterline to above it at the same place along her.",),
    "under way": (
        "Standing still she is good: leave ballast alone. Check shaft angle, the neutral angle of "
        "the planes, "
        "the tower's drag and how near the surface she runs.",
    ),
}  # fmt: skip


def _block(piece: Piece, shown: Shown) -> str:
    """Return the sides of the foam to cut, and how many."""
    assert piece.block is not None
    sides = " × ".join(shown.side(side) for side in piece.block)
    unit = shown.length
    each = f"{sides} {unit}"
    count = "" if piece.count == 1 else f"{piece.count} pieces of "
    return f"{count}{each} ({shown.figure(piece.amount, 'volume')})"


def _least(piece: Piece) -> str:
    return "at least " if piece.is_bound else ""


def _room(piece: Piece, shown: Shown) -> str:
    """Return what a piece takes of the tank and what there is."""
    if piece.takes is None:
        return ""
    takes = f"It takes {shown.write(piece.takes.value, 'volume')} of tank"
    if piece.has is None:
        return f"{takes}; make sure the tank has it to spare when she is neutral."
    has = shown.write(max(piece.has.value, 0.0), "volume")
    if piece.fits:
        return f"{takes}, you have {has}."
    return (
        f"{takes}, you have only {has}: that is too much, so fit a larger tank or do it another "
        "way."
    )


def _foam_above(piece: Piece, known: Known, shown: Shown) -> str:
    assert piece.x is not None
    at = shown.place(piece.x.value, known.length.value, piece.towards)
    return (
        f"Foam: {_least(piece)}{_block(piece, shown)}, above the waterline inside the hull or "
        f"casing, its centre {at}. {_room(piece, shown)}"
    )


def _tank_shift(piece: Piece, known: Known, shown: Shown) -> str:
    way = {"bow": "forward", "stern": "aft"}[piece.towards]
    return f"The tank {_least(piece)}{shown.figure(piece.amount, 'length')} further {way}."


def _foam_out(piece: Piece, known: Known, shown: Shown) -> str:
    assert piece.x is not None
    at = shown.place(piece.x.value, known.length.value, piece.towards)
    return (
        f"Remove {_least(piece)}{shown.figure(piece.amount, 'volume')} of foam or closed air "
        f"above the waterline if its centre is {at}; nearer amidships, that much more. It gives "
        "that "
        "much tank back."
    )


def _lead_moved(piece: Piece, known: Known, shown: Shown) -> str:
    assert piece.move is not None
    way = {"bow": "forward", "stern": "aft"}[piece.towards]
    return (
        f"Move {_least(piece)}{shown.figure(piece.amount, 'mass')} of lead "
        f"{shown.write(piece.move.value, 'length')} {way}, low; twice as much, half as far, does "
        "the same."
    )


def _lead_and_foam(piece: Piece, known: Known, shown: Shown) -> str:
    """Return both ends of a pair: lead at the high end, foam below the waterline at the low one."""
    assert piece.x is not None
    assert piece.pull is not None
    length = known.length.value
    low = {"bow": "stern", "stern": "bow"}[piece.towards]
    lead = f"{_least(piece)}{shown.figure(piece.pull, 'mass')} of lead low"
    inset = min(piece.x.value, length - piece.x.value)
    at = shown.place(piece.x.value, length, piece.towards)
    away = shown.write(inset, "length")
    return (
        f"With no lead to move: {lead}, {at}, and foam {_block(piece, shown)} just below the "
        f"waterline, {away} from the {low}. It costs no tank."
    )


def _vent(piece: Piece, known: Known, shown: Shown) -> str:
    end = f" at the {piece.towards}" if piece.towards else ""
    return (
        f"Let the air out: a hole of {shown.write(piece.amount.value, 'length')} or wider at the "
        f"highest point of each space{end}, at both ends of it; a hole of 2 mm holds the air."
    )


def _air(piece: Piece, known: Known, shown: Shown) -> str:
    return (
        f"It is about {shown.figure(piece.amount, 'volume')} of air, under the deck or casing "
        f"towards the {piece.towards}."
    )


def _over_tank(piece: Piece, known: Known, shown: Shown) -> str:
    assert piece.x is not None
    at = shown.place(piece.x.value, known.length.value)
    room = _room(piece, shown)
    end = f" {room}" if room else " Then she is neutral with the tank full."
    return f"Foam: {_block(piece, shown)}, above the waterline over the tank, {at}.{end}"


def _loss(piece: Piece, known: Known, shown: Shown) -> str:
    return (
        f"Slack water costs {shown.figure(piece.amount, 'length')} of her BG of "
        f"{shown.write(known.bg_or_guess.value, 'length')}."
    )


def _bays(piece: Piece, known: Known, shown: Shown) -> str:
    if piece.count == 1:
        return "That is little: the tank need not be divided."
    each = shown.write(piece.amount.value, "length")
    return (
        f"Divide the tank into {piece.count} closed bays of {each} with {piece.count - 1} "
        "watertight walls, each bay with its own pipe and vent."
    )


def _stop(piece: Piece, known: Known, shown: Shown) -> str:
    return f"Stop the fill at {shown.figure(piece.amount, 'percent')}."


def _out_anywhere(piece: Piece, known: Known, shown: Shown) -> str:
    much = shown.figure(piece.amount, "volume")
    return (
        f"Take {much} of foam, trapped air or skin away above the waterline, near the tank's "
        "centre; "
        f"or a tank larger by {much}. A little more as a margin."
    )


def _to_side(piece: Piece, known: Known, shown: Shown) -> str:
    assert piece.move is not None
    return (
        f"Foam: {_block(piece, shown)}, above the waterline at the {piece.towards} side, "
        f"{shown.write(piece.move.value, 'length')} from the centreline; or remove as much at the "
        f"other. {_room(piece, shown)}"
    )


def _lead_across(piece: Piece, known: Known, shown: Shown) -> str:
    assert piece.move is not None
    return (
        f"Move {shown.figure(piece.amount, 'mass')} of lead "
        f"{shown.write(piece.move.value, 'length')} to {piece.towards}, low; a heavier battery as "
        "much less far."
    )


def _down(piece: Piece, known: Known, shown: Shown) -> str:
    return (
        f"Foam: move {_block(piece, shown)} from above the waterline to just below it, at the "
        "same place along her: she floats higher, dived nothing changes, and it gives tank back."
    )


def _up(piece: Piece, known: Known, shown: Shown) -> str:
    return (
        f"Foam: move {_block(piece, shown)} from below the waterline to just above it, at the "
        "same place along her: she floats lower, dived nothing changes, and it takes as much tank."
    )


SENTENCES = {
    "foam above": _foam_above,
    "tank shift": _tank_shift,
    "foam out": _foam_out,
    "lead moved": _lead_moved,
    "lead and foam": _lead_and_foam,
    "vent": _vent,
    "air": _air,
    "foam over tank": _over_tank,
    "slack": _loss,
    "bays": _bays,
    "stop": _stop,
    "foam out anywhere": _out_anywhere,
    "foam to side": _to_side,
    "lead across": _lead_across,
    "foam down": _down,
    "foam up": _up,
}


def _how_certain(now: Step, shown: Shown) -> Iterator[Block]:
    """Yield what the figures say of BG, of what may be left, and what is still open."""
    moment, said = now.moment, list[str]()
    if moment and moment.bg:
        bg = shown.figure(moment.bg, "length")
        said.append(f"Angle and weights together: BG {bg}.")
    if moment and moment.at_least:
        said.append(
            "With an end on the bottom only the least angle is known. For a better figure bring "
            "her level: "
            "small weights on deck at the high end, or a spring scale hooked to the low end."
        )
    elif now.left and moment:
        said.append(
            f"With it in she may still hang up to {shown.write(now.left.spread, 'angle')} off."
        )
        if moment.by_angle and now.known.bg_entered is None:
            said.append(
                "BG is only a guess: small weights on deck (balance), or a weight moved along it "
                "(shift), make the piece surer."
            )
    others = [c for c in now.open.still_open if c not in [r.cause for r in now.remedies]][:SHOWN]
    if others:
        open_still = ", ".join(" ".join(one) for one in likely(others, now.known))
        said.append(f"Not ruled out: {open_still}.")
    if said:
        yield heading("How sure")
        yield from (line(text) for text in said)
    if not now.in_order:
        yield line(
            "Fix this, then ask again: one fault may hide another. ± covers 95 cases in 100."
        )

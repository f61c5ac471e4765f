"""What wet hands asks, in big plain words: what to do, what to say then, and how it is typed.

{low} and {high} stand for the end that hangs low dived and the other one.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimdive.estimates.wethands import Known, Question


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """The words of a question."""

    do: str  # in big words: what to do
    ask: str  # what to say then
    options: Mapping[str, str]  # what each answer is called, by its key
    how: str  # how it is typed, where that is not plain; else ""


def _asks(do: str, ask: str, how: str = "", **options: str) -> Asking:
    named = {key.replace("_", " "): words for key, words in options.items()}
    return Asking(do=do, ask=ask, options=named, how=how)


def asking(question: "Question", known: "Known") -> Asking:
    """Return the words of a question, with the ends of this boat.

    Args:
        question: What is asked.
        known: What is known of her.
    """
    words, low = WORDS[question.key], known.low_end or "low end"
    high = {"bow": "stern", "stern": "bow"}.get(low, "high end")
    do, ask, how = (one.format(low=low, high=high) for one in (words.do, words.ask, words.how))
    return Asking(do=do, ask=ask, options=words.options, how=how)


def choices(question: "Question") -> tuple[str, ...]:
    """Return what the answers of a question are called, in their order."""
    return tuple(WORDS[question.key].options[key] for key in question.options)


def _heel(do: str) -> Asking:
    return _asks(
        do, "Does she heel?", "with the figure if you have it: 3° to port",
        upright="upright", port="to port", starboard="to starboard",
    )  # fmt: skip


WORDS: Mapping[str, Asking] = {
    "angle": _asks(
        "Let her hang just under, so that she neither rises nor sinks.",
        "How does she hang? If she stays up with the tank full, push her under amidships.",
        "with the figure if you have it: bow down 12°, stern down 60 mm",
        level="level",
        bow="bow down",
        stern="stern down",
        bow_bottom="nose on the bottom, stern out",
        stern_bottom="tail on the bottom, bow out",
    ),
    "surfaced": _asks(
        "Tank empty, afloat.",
        "How does she lie lengthways?",
        "with the figure if you have it: bow 8 mm low",
        level="level",
        bow="bow low",
        stern="stern low",
    ),
    "filling": _asks(
        "Fill the tank until she neither rises nor sinks.",
        "How full is it then?",
        "or as a figure: 88 %; or on a spring scale, tank full: 40 g heavy, 60 g light",
        never="she stays up even with the tank full",
        quite="full",
        nearly="not quite: 80 to 97 %",
        early="much less",
    ),
    "ride": _asks(
        "Tank empty, afloat.",
        "Is she at her waterline?",
        "with the figure if you have it: 6 mm low",
        right="at her waterline",
        low="too low",
        high="too high",
    ),
    "rock": _asks(
        "Hold her under. Wait two minutes, rock her well to all sides, release her.",
        "Is she right now?",
        yes="yes",
        better="better",
        no="no, the same",
    ),
    "full": _asks(
        "Fill right up, to the last drop; hold her amidships on a line if she sinks.",
        "Level now?",
        yes="yes",
        better="better",
        no="no, the same",
    ),
    "over": _asks(
        "Dived as before, push the high end down past level and release it.",
        "Does she stay there?",
        yes="stays down by that end",
        no="comes back",
    ),
    "closed": _asks(
        "Look above the waterline at the {high}.",
        "Is there foam, or anything closed with air in it: a house, a hollow print, a box?",
        yes="yes",
        no="no",
    ),
    "list": _heel("Tank empty, afloat."),
    "heel": _heel("Hanging dived."),
    "way": _asks(
        "Think of when you saw it.",
        "Was it only under way, never standing still?",
        yes="only under way",
        no="standing still too, or nothing wrong",
    ),
    "degrees": _asks(
        "Let her hang again, {low} down.",
        "By how many degrees, or how much lower is the {low} than the {high}?",
        "12°, or 60 mm; in water too shallow for it, skip this",
    ),
    "depth": _asks(
        "Measure the water depth where the {low} is on the bottom.",
        "How deep is it? That gives the least angle.",
        "600 mm",
    ),
    "balance": _asks(
        "Put small lead weights on deck at the {high} until she hangs level.",
        "Let out tank water as you do, so that she stays neutral. Or hook a spring scale to the "
        "{low} and lift until she is level. How much, and where?",
        "120 g at 150 mm from the {high}; pull 90 g at 100 mm from the {low}",
    ),
    "place": _asks(
        "Find the centre of the tank's water along her length.",
        "Where is it?",
        "950 mm from the bow",
    ),
    "spare": _asks(
        "Fill the tank until she neither rises nor sinks.",
        "How full is it then? Or with it full, how heavy is she on a spring scale?",
        "88 %; 40 g heavy",
    ),
    "shift": _asks(
        "Level or nearly, dived: move a lead weight along the deck.",
        "What weight, how far, and by how many degrees did she turn?",
        "100 g, 300 mm, 8°",
    ),
    "room": _asks(
        "Look where foam can be fixed above the waterline at the {low}, out of sight.",
        "Where is its centre?",
        "210 mm from the {low}",
    ),
    "slack": _asks(
        "Measure the tank inside.",
        "How long is the water in it, and how wide?",
        "400 mm x 90 mm",
    ),
    "heels": _asks("Let her hang again.", "By how many degrees does she heel?", "6°"),
    "rides": _asks(
        "Tank empty, afloat.",
        "By how much is she off her waterline amidships?",
        "6 mm",
    ),
    "breadth": _asks("Measure her breadth at the deck.", "How broad is she?", "200 mm"),
}

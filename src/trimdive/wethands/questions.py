"""The tests that can be asked for, in big plain words, and when each makes sense.

{low} and {high} stand for the end that hangs low dived and the other one.

Source: builders' practice at the tub [practice].
"""

from collections.abc import Callable
from dataclasses import dataclass

from trimdive.wethands.known import Known


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One answer that a question knows."""

    key: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A test to do, or a figure to read."""

    key: str
    do: str  # in big words: what to do
    ask: str  # what to tell then
    options: tuple[Option, ...] = ()
    how: str = ""  # how it is typed, where that is not plain
    effort: float = 1.0  # as against a look at her [-]
    fits: Callable[[Known], bool] = lambda known: True

    def told_to(self, known: Known) -> "Question":
        """Return it with the ends of this boat in its words."""
        low = known.low_end or "low end"
        high = {"bow": "stern", "stern": "bow"}.get(low, "high end")
        names = {"low": low, "high": high}
        options = tuple(
            Option(key=one.key, label=one.label.format(**names)) for one in self.options
        )
        return Question(
            key=self.key, do=self.do.format(**names), ask=self.ask.format(**names),
            options=options, how=self.how.format(**names), effort=self.effort, fits=self.fits,
        )  # fmt: skip


def _options(**labels: str) -> tuple[Option, ...]:
    return tuple(Option(key=key.replace("_", " "), label=label) for key, label in labels.items())


def tips(known: Known) -> bool:
    """Return whether she is told to hang by one end dived."""
    return bool(known.low_end)


def _not_level(known: Known) -> bool:
    return known.option("angle") != "level"


def _has_room(known: Known) -> bool:
    """Return whether the tank is not full already when she hangs."""
    return _not_level(known) and known.option("filling") not in ("never", "quite")


def _may_hold_air(known: Known) -> bool:
    """Return whether rocking may tell anything: she tips, leans dived or stays up."""
    said = (known.option("angle"), known.option("heel"), known.option("filling"))
    is_good = said[0] == "level" and said[1] in ("upright", "") and said[2] not in ("never", "")
    return not is_good


CHOICES = (
    Question(
        key="angle",
        do="Let her hang just under, so that she neither rises nor sinks.",
        ask="How does she hang? If she stays up with the tank full, push her under amidships.",
        options=_options(
            level="level",
            bow="bow down",
            stern="stern down",
            bow_bottom="nose on the bottom, stern out",
            stern_bottom="tail on the bottom, bow out",
        ),
        how="with the figure if you have it: bow down 12°, stern down 60 mm",
    ),
    Question(
        key="surfaced",
        do="Tank empty, afloat.",
        ask="How does she lie lengthways?",
        options=_options(level="level", bow="bow low", stern="stern low"),
        how="with the figure if you have it: bow 8 mm low",
    ),
    Question(
        key="filling",
        do="Fill the tank until she neither rises nor sinks.",
        ask="How full is it then?",
        options=_options(
            never="she stays up even with the tank full",
            quite="quite full",
            nearly="not quite: 80 to 97 %",
            early="much less",
        ),
        how="or as a figure: 88 %; or on a spring scale, tank full: 40 g heavy, 60 g light",
    ),
    Question(
        key="ride",
        do="Tank empty, afloat.",
        ask="Is she at her waterline?",
        options=_options(right="at her waterline", low="too low", high="too high"),
        how="with the figure if you have it: 6 mm low",
    ),
    Question(
        key="rock",
        do="Hold her under. Wait two minutes, rock her well to all sides, let go.",
        ask="Is she right now?",
        options=_options(yes="yes", better="better", no="no, the same"),
        effort=1.5,
        fits=_may_hold_air,
    ),
    Question(
        key="full",
        do="Fill right up, to the last drop; hold her amidships on a line if she sinks.",
        ask="Level now?",
        options=_options(yes="yes", better="better", no="no, the same"),
        effort=1.5,
        fits=_has_room,
    ),
    Question(
        key="over",
        do="Dived as before, push the high end down past level and let go.",
        ask="Does she stay there?",
        options=_options(yes="stays down by that end", no="comes back"),
        effort=1.2,
        fits=_has_room,
    ),
    Question(
        key="closed",
        do="Look above the waterline at the {high}.",
        ask="Is there foam, or anything closed with air in it: a house, a hollow print, a box?",
        options=_options(yes="yes", no="no"),
        effort=1.5,
        fits=tips,
    ),
    Question(
        key="list",
        do="Tank empty, afloat.",
        ask="Does she lean?",
        options=_options(upright="upright", port="to port", starboard="to starboard"),
        how="with the figure if you have it: 3° to port",
    ),
    Question(
        key="heel",
        do="Hanging dived.",
        ask="Does she lean?",
        options=_options(upright="upright", port="to port", starboard="to starboard"),
        how="with the figure if you have it: 3° to port",
    ),
    Question(
        key="way",
        do="Think of when you saw it.",
        ask="Was it only under way, and never at rest?",
        options=_options(yes="only under way", no="at rest too, or nothing amiss"),
    ),
)

FIGURES = (
    Question(
        key="degrees",
        do="Let her hang again, {low} down.",
        ask="By how many degrees, or how much lower is the {low} than the {high}?",
        how="12°, or 60 mm; in water too shallow for it, pass this over",
    ),
    Question(
        key="depth",
        do="Measure the water where the {low} stands on the bottom.",
        ask="How deep is it? That tells the least angle.",
        how="600 mm",
    ),
    Question(
        key="balance",
        do="Lay small lead weights on deck at the {high} until she hangs level.",
        ask="Let out tank water as you do, so that she still hangs. Or hook a spring scale to the "
        "{low} and lift until she is level. How much, and where?",
        how="120 g at 150 mm from the {high}; pull 90 g at 100 mm from the {low}",
    ),
    Question(
        key="place",
        do="Find the middle of the tank's water along her.",
        ask="Where is it?",
        how="950 mm from the bow",
    ),
    Question(
        key="spare",
        do="Fill the tank until she neither rises nor sinks.",
        ask="How full is it then? Or with it full, how heavy is she on a spring scale?",
        how="88 %; 40 g heavy",
    ),
    Question(
        key="shift",
        do="Level or nearly, dived: move a lead weight along the deck.",
        ask="What weight, how far, and by how many degrees did she turn?",
        how="100 g, 300 mm, 8°",
    ),
    Question(
        key="room",
        do="Look where foam can be fixed above the waterline at the {low}, out of sight.",
        ask="Where is its middle?",
        how="210 mm from the {low}",
    ),
    Question(
        key="slack",
        do="Measure the tank inside.",
        ask="How long is the water in it, and how wide?",
        how="400 mm x 90 mm",
    ),
    Question(
        key="heels",
        do="Let her hang again.",
        ask="By how many degrees does she lean?",
        how="6°",
    ),
    Question(
        key="rides",
        do="Tank empty, afloat.",
        ask="By how much is she off her waterline amidships?",
        how="6 mm",
    ),
    Question(
        key="breadth",
        do="Measure her breadth at the deck.",
        ask="How broad is she?",
        how="200 mm",
    ),
)

BY_KEY = {question.key: question for question in (*CHOICES, *FIGURES)}

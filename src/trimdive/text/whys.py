"""A figure asked "why?" in words: its question, the reason, what is put in, how sure it is."""

from functools import cache

from trimdive.boatfile import Boat
from trimdive.data import table
from trimdive.records import record
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.why import Item, Value, Why
from trimdive.why.why import Shown

QUESTIONS = {  # {} is the mark, tank or water that is asked of
    "trim": "Why this trim?",
    "light-or-heavy": "Why so light, or so heavy?",
    "bg": "Why is B so far above G?",
    "bg-upright": "Why this BG, dived and upright?",
    "litres-needed": "Why does she need so much ballast water?",
    "litres-centre": "Why must the tank water have its centre there?",
    "tank-water-centre": "Why is the centre of the tank water there?",
    "tank-water-offset": "Why is the tank water too far forward or aft?",
    "neutral-filling": "Why is she neutral at that filling?",
    "gm-empty": "Why this GM?",
    "gm-least": "Why this GM?",
    "dry-mass": "Why does she weigh so much?",
    "x-of-g": "Why is G there along her?",
    "z-of-g": "Why is G so high?",
    "kb-dived": "Why is B so high when she is under?",
    "kg-dived": "Why is G so high when she is under?",
    "volume-above": "What is above the waterline?",
    "rule-of-thumb": "What does the rule of thumb say, and why is it off?",
    "sinks": "Why does she sink so fast, or not at all, with full tanks?",
    "rises": "Why does she come up so fast, tanks blown?",
    "draught": "Why does she float so deep at {}?",
    "tank-volume": "Why does {} take so much?",
    "tank-centre": "Why is the centre of the water in {} there?",
    "lead-for-water": "How much lead does {} ask for, and why?",
    "lead-for-density": "How much lead does water of {} kg/m³ ask for, and why?",
    "finding": "Why this finding, and which limit?",
}
MEANS = {  # of values, where the list of symbols has not what they are
    "place-of-g": "place of G, tank water and all",
    "place-of-b": "place of B as she floats",
    "bg-as-she-lies": "how far B is above G as she floats",
    "b-on-plumb-line": "height of B straight above the keel line at G",
    "g-on-plumb-line": "height of G along it, tank water and all",
    "b-dived": "height of B, wholly under",
    "g-dived": "height of G, tank water and all",
    "own-mass": "her mass, no tank water",
    "own-height": "its height",
    "water-at-neutral": "water in the tanks, where she is neutral",
    "water-height": "height of its centre, boat level",
    "worth-of-breadth": "what her waterplane adds",
    "slack-water": "loss to slack tank water",
    "afloat-mass": "mass of boat and dead water",
    "volume-under": "volume under water, M / ρ",
    "place-of-mark": "place of the mark",
    "all-volume": "everything solid or sealed, wholly under",
    "tank-water": "water in her tanks",
    "tank-room": "what her tanks hold, dead air included",
    "litre-as-kilogram": "a litre counted as a kilogram",
    "her-water": "her water",
    "water-there": "water there",
    "plate-drag": "drag of a plate lying flat",
    "plan-area": "her outside seen from above",
    "limit": "the limit",
    "figure-behind": "the figure behind it, as she is now",
    "as-it-stands": "what is held against it, as she is now",
}


@record
class ValueInWords:
    """A value that goes into a formula, in words."""

    symbol: str  # as the formula has it
    says: str  # what it is
    text: str  # with its unit
    value: float  # [SI of its kind]
    kind: str  # of quantity
    origin: str  # where it comes from
    asks: str  # key under which it can be asked in its turn, or ""


@record
class ItemInWords:
    """One thing of the many that a sum goes over, in words."""

    name: str
    texts: tuple[str, ...]  # under the symbols of the sum
    origin: str


@record
class WhyInWords:
    """Everything that is told of one figure, in words."""

    key: str
    question: str
    answer: str  # the figure as the page shows it
    result: float  # the same [SI of its kind]
    kind: str  # of quantity
    says: str  # the reason in a sentence or two
    formula: str  # in symbols; A_B has an index, {a|b} is a over b, √{a} a root
    values: tuple[ValueInWords, ...]
    heads: tuple[str, ...]  # symbols of what is summed
    items: tuple[ItemInWords, ...]
    source: str
    uncertainty: str


@cache
def meanings() -> dict[str, str]:
    """Return what each symbol means."""
    return {entry["symbol"]: entry["meaning"] for entry in table("nomenclature") if entry["symbol"]}


def in_words(boat: Boat, why: Why) -> WhyInWords:
    """Return what is told of one figure, in words and in a boat's units."""
    say = Say(boat)
    return WhyInWords(
        key=why.key,
        question=_question(*why.about),
        answer=_text_of(say, why.answer),
        result=why.result,
        kind=why.kind,
        says=_text_of(say, why.reason),
        formula=why.formula,
        values=tuple(_value(say, one) for one in why.values),
        heads=why.heads,
        items=tuple(_item(say, one) for one in why.items),
        source=why.source,
        uncertainty=_text_of(say, why.uncertainty),
    )


def answer(boat: Boat, why: Why) -> str:
    """Return a figure as the page shows it."""
    return _text_of(Say(boat), why.answer)


def _question(key: str, of: str) -> str:
    text = f"{float(of):.1f}" if key == "lead-for-density" else of
    return QUESTIONS[key].format(text)


def _text_of(say: Say, one: Shown) -> str:
    """Return a fact in words; the name of a piece as it stands."""
    return one if isinstance(one, str) else said(say, one)


def _value(say: Say, one: Value) -> ValueInWords:
    return ValueInWords(
        symbol=one.symbol,
        says=MEANS.get(one.means) or meanings()[one.means],
        text=_text_of(say, one.shown),
        value=one.value,
        kind=one.kind,
        origin=_text_of(say, one.origin),
        asks=one.asks,
    )


def _item(say: Say, one: Item) -> ItemInWords:
    return ItemInWords(
        name=_text_of(say, one.name),
        texts=tuple(said(say, each) for each in one.figures),
        origin=_text_of(say, one.origin),
    )

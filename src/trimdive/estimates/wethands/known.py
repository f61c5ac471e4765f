"""What is known of her so far: figures told, and answers given, in the order they came."""

from dataclasses import dataclass, replace

from trimdive.errors import AskError
from trimdive.estimates.wethands.figure import Figure, usual_of

LONGEST, LEAST = 20.0, 0.1  # of a boat, over all [m]
HEAVIEST = 5000.0  # of a boat [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reply:
    """One answer to one question."""

    key: str  # of the question
    option: str  # of it; "" where only a figure was asked, "skip" where it was passed over
    size: Figure | None = None  # told with it [SI]
    kind: str = ""  # of that size: angle, length, mass, volume, percent
    place: Figure | None = None  # told with it, from the stern [m]
    way: Figure | None = None  # a weight was moved so far, or a breadth [m]
    turned: Figure | None = None  # by so much that turned her [rad]
    typed: str = ""

    @property
    def is_entered(self) -> bool:
        """Return whether it says anything."""
        return self.option != "skip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """Everything told of one boat."""

    mass: Figure  # dry, tank empty [kg]
    tank: Figure  # water it takes from blown to full [m³]
    length: Figure  # over all [m]
    water: float  # its density [kg/m³]
    bg: Figure | None = None  # B over G dived, where told [m]
    replies: tuple[Reply, ...] = ()

    def reply(self, key: str) -> Reply | None:
        """Return the answer to a question; None where it was not asked, or passed over."""
        return next((one for one in self.replies if one.key == key and one.is_entered), None)

    def option(self, key: str) -> str:
        """Return the option chosen; "" where none was."""
        found = self.reply(key)
        return found.option if found else ""

    def was_asked(self, key: str) -> bool:
        """Return whether a question was answered or passed over."""
        return any(one.key == key for one in self.replies)

    def with_reply(self, reply: Reply) -> "Known":
        """Return it with one answer more, in the place of an earlier one to the same question."""
        kept = tuple(one for one in self.replies if one.key != reply.key)
        return replace(self, replies=(*kept, reply))

    def without(self, *keys: str) -> "Known":
        """Return it with the answers to some questions taken back."""
        kept = tuple(one for one in self.replies if one.key not in keys)
        return replace(self, replies=kept)

    def only(self, *keys: str) -> "Known":
        """Return it with none but the answers to some questions."""
        return replace(self, replies=tuple(one for one in self.replies if one.key in keys))

    @property
    def bg_entered(self) -> Figure | None:
        """Return BG as told or by the shift test; None where it is a guess [m]."""
        from trimdive.estimates.wethands.physics import bg_by_shift, pull_of_lead

        test = self.reply("shift")
        if test is None or test.size is None or test.way is None or test.turned is None:
            return self.bg
        weight = pull_of_lead(test.size, self.water)
        return bg_by_shift(weight, test.way, test.turned, self.dived)

    @property
    def bg_or_guess(self) -> Figure:
        """Return BG, guessed from her length where nobody told [m]."""
        found = self.bg_entered
        if found is not None:
            return found
        guess = usual_of("bg-each-metre") * self.length.value
        return Figure(guess, usual_of("bg-guess") * guess)

    @property
    def filling(self) -> Figure:
        """Return how full the tank is when she is neutral, guessed where nobody told [-]."""
        found = self.reply("filling")
        if found and found.size and found.kind == "percent":
            return found.size
        if found and found.size and found.kind == "mass":
            sign = -1.0 if found.option == "never" else 1.0
            return Figure(1.0, 0.0).minus(found.size.over(self.tank.times(self.water)).times(sign))
        guesses = {"never": (1.1, 0.1), "quite": (0.985, 0.015), "early": (0.6, 0.15)}
        usual = (usual_of("usual-filling"), usual_of("usual-filling-off"))
        return Figure(*guesses.get(self.option("filling"), usual))

    @property
    def dived(self) -> Figure:
        """Return the mass of boat and tank water when neutral [kg]."""
        return self.mass.plus(self.tank.by(self.filling).times(self.water))

    @property
    def tank_place(self) -> Figure:
        """Return the middle of the tank from the stern, amidships where nobody told [m]."""
        found = self.reply("place")
        if found and found.place:
            return found.place
        return Figure(self.length.value / 2, usual_of("middle-off") * self.length.value)

    @property
    def low_end(self) -> str:
        """Return the end that hangs low dived: bow, stern, or "" where neither is told to."""
        found = self.option("angle")
        if found in ("bow", "bow bottom"):
            return "bow"
        return "stern" if found in ("stern", "stern bottom") else ""


def begun(
    mass: Figure, tank: Figure, length: Figure, water: float, bg: Figure | None = None
) -> Known:
    """Return what is known at the beginning.

    Args:
        mass: Dry, tank empty [kg].
        tank: Water it takes from blown to full [m³].
        length: Over all [m].
        water: Its density [kg/m³].
        bg: B over G dived [m].

    Raises:
        AskError: A figure is one that no such boat has.
    """
    wrong = _wrong(mass, tank, length, water, bg)
    if wrong is not None:
        raise wrong
    return Known(mass=mass, tank=tank, length=length, water=water, bg=bg)


def _wrong(
    mass: Figure, tank: Figure, length: Figure, water: float, bg: Figure | None
) -> AskError | None:
    """Return the first figure that no such boat has."""
    what = where = ""
    if not 0 < mass.value < HEAVIEST:
        where, what = "mass", f"{mass.value:g} kg is no mass of such a boat"
    elif not LEAST < length.value < LONGEST:
        where, what = "length", f"{length.value:g} m is no length of such a boat"
    elif not tank.value > 0:
        where, what = "tank", "the tank takes nothing"
    elif not tank.value * water < mass.value:
        litres = tank.value * 1e3
        where, what = "tank", f"a tank of {litres:g} L takes more than the whole boat weighs"
    elif bg is not None and not bg.value > 0:
        where, what = "bg", "B must lie above G, else she hangs upside down"
    return AskError(what, where, "Look at the unit, and enter it again.") if what else None

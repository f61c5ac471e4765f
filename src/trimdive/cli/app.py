"""The commands: each reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish, tell
from trimdive.cli.arrange import add_to as add_arrange
from trimdive.cli.bench import add_to as add_bench
from trimdive.cli.building import building
from trimdive.cli.dive import Fill, Order
from trimdive.cli.dive import add_to as add_dive
from trimdive.cli.fit import add_to as add_fit
from trimdive.cli.kit import add_to as add_kit
from trimdive.cli.lists import add_to as add_lists
from trimdive.cli.marks import add_to as add_marks
from trimdive.cli.mesh import add_to as add_mesh
from trimdive.cli.opening import opened, working
from trimdive.cli.page import Door
from trimdive.cli.page import add_to as add_page
from trimdive.cli.patterns import add_to as add_patterns
from trimdive.cli.place import add_to as add_place
from trimdive.cli.pond import add_to as add_pond
from trimdive.cli.reach import add_to as add_reach
from trimdive.cli.tub import add_to as add_tub
from trimdive.cli.wethands import add_to as add_wet_hands
from trimdive.cli.whatif import add_to as add_what_if
from trimdive.cli.why import add_to as add_why

app = typer.Typer(
    add_completion=False,
    cls=Door,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    help="How a radio-controlled submarine floats and dives. Without a command it opens the page.",
    epilog="Exit status: 0 in order, 1 something must be put right or entered, 2 bad input.",
)

app.add_typer(building)

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
InWater = Annotated[
    str | None,
    typer.Option("--water", help='"sea", "fresh 6 °C", "pool 28 °C 3 g/kg" or a named water.'),
]
WithTanks = Annotated[
    str | None,
    typer.Option("--tanks", help='"blown", "full", "neutral", "60 %" or "forward tank = 40 %".'),
]
Out = Annotated[Path, typer.Option("--out", help="Folder for the drawings.")]


@app.command("float", cls=Answer)
def float_(
    boat: BoatFile, water: InWater = None, tanks: WithTanks = None, as_json: Json = False
) -> None:
    """How she floats on the surface and how she hangs dived."""
    with working():
        from trimdive.cli.afloat import float_text
        from trimdive.cli.as_json import float_json
        from trimdive.cli.typed import state_of

        her = opened(boat, water)
        asked = None if tanks is None else state_of(tanks, her)
        answer = float_json(her, asked) if as_json else [*float_text(her, asked)]
    finish(her, answer, boat, {"--water": water})


@app.command(cls=Answer)
def litres(boat: BoatFile, water: InWater = None, as_json: Json = False) -> None:
    """Litres of ballast water she needs, and where."""
    with working():
        from trimdive.cli.as_json import litres_json
        from trimdive.text.ballast import litres_text

        her = opened(boat, water)
        answer = litres_json(her) if as_json else [*litres_text(her)]
    finish(her, answer, boat, {"--water": water})


@app.command(cls=Answer)
def weigh(boat: BoatFile, as_json: Json = False) -> None:
    """What everything weighs, where it is, and how sure that is."""
    with working():
        from trimdive.cli.as_json import weigh_json
        from trimdive.cli.scales import weigh_text

        her = opened(boat)
        answer = weigh_json(her) if as_json else [*weigh_text(her)]
    finish(her, answer, boat, care="scales")


@app.command(cls=Answer)
def check(
    boat: BoatFile, water: InWater = None, order: Order = None, fill: Fill = None,
    as_json: Json = False,
) -> None:  # fmt: skip
    """What must be put right, worst first, and what mends it."""
    with working():
        from trimdive.cli.as_json import check_json
        from trimdive.cli.orders import check_text
        from trimdive.text.dive_typed import as_typed

        her = as_typed(opened(boat, water), order, fill)
        answer = check_json(her) if as_json else [*check_text(her, boat)]
    finish(her, answer, boat, shows="check", care="check")


@app.command(cls=Answer)
def draw(
    boat: BoatFile,
    out: Out = Path("out"),
    water: InWater = None,
    tanks: WithTanks = None,
    as_json: Json = False,
) -> None:
    """Draw her from the side and from above, in the water, as SVG."""
    with working():
        from trimdive.cli.as_json import draw_json
        from trimdive.cli.sheets import drawn

        her = opened(boat, water)
        files = drawn(her, tanks, out)
        answer = draw_json(her, files) if as_json else "\n".join(map(str, files))
    tell(answer)


add_dive(app)
add_bench(app)
add_what_if(app)
add_reach(app)
add_fit(app)
add_marks(app)
add_arrange(app)
add_kit(app)
add_patterns(app)
add_place(app)
add_tub(app)
add_lists(app)
add_mesh(app)
add_wet_hands(app)
add_why(app)
add_pond(app)
add_page(app)

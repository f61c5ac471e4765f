"""``wet-hands``: a boat in no file, at the tub; reads, asks and shows."""

from typing import Annotated

import typer

from trimdive.cli.answer import Answer

Text = str | None

Dry = Annotated[Text, typer.Option("--mass", help='Her dry mass, tank empty: "30 kg".')]
Tank = Annotated[Text, typer.Option("--tank", help='Water the tank takes: "2.1 L".')]
Length = Annotated[Text, typer.Option("--length", help='Length over all: "2 m", "55 in".')]
Stands = Annotated[
    Text, typer.Option("--bg", help='BG, if you know it: "15 mm"; otherwise guessed.')
]
InWater = Annotated[
    Text, typer.Option("--water", help='"sea", "fresh 6 °C" or a named water; else a pond\'s.')
]
Answers = Annotated[
    Text,
    typer.Option("--answers", help='Answers given ahead: "angle: bow down 12°; surfaced: level".'),
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI; asks nothing.")]


def wet_hands(
    mass: Dry = None, tank: Tank = None, length: Length = None, bg: Stands = None,
    water: InWater = None, answers: Answers = None, as_json: Json = False,
) -> None:  # fmt: skip
    """Find the fault of a boat without a file, one test at a time."""
    from trimdive.cli.answer import IN_ORDER, PUT_RIGHT, print_json, tell
    from trimdive.cli.wethands_asked import Begin, scripted, talk
    from trimdive.cli.wethands_json import wet_hands_json
    from trimdive.text.care import care, care_words
    from trimdive.text.wethands_text import wet_hands_text

    begin = Begin(mass=mass, tank=tank, length=length, bg=bg, water=water)
    is_scripted = answers is not None or as_json
    step, shown = scripted(begin, answers or "") if is_scripted else talk(begin)
    if as_json:
        print_json({**wet_hands_json(step), "cautions": care_words("wet-hands")})
    else:
        tell([*wet_hands_text(step, shown), *care("wet-hands")])
    raise typer.Exit(IN_ORDER if step.in_order else PUT_RIGHT)


def add_to(app: typer.Typer) -> None:
    """Add the command."""
    app.command("wet-hands", cls=Answer)(wet_hands)

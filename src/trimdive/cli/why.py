"""``why``: where a figure comes from; ``words``: what the words mean. Reads, calls and shows."""

from pathlib import Path
from typing import Annotated

import typer

from trimdive.cli.answer import Answer, finish, tell
from trimdive.cli.opening import opened, working

BoatFile = Annotated[Path, typer.Argument(metavar="BOAT", help="Boat file, or its folder.")]
Key = Annotated[
    str | None, typer.Argument(metavar="KEY", help="The figure; all of them if left out.")
]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON document, in SI.")]
InWater = Annotated[
    str | None,
    typer.Option("--water", help='"sea", "fresh 6 °C", "pool 28 °C 3 g/kg" or a named water.'),
]
WithTanks = Annotated[
    str | None,
    typer.Option("--tanks", help='"blown", "full", "neutral", "60 %" or "forward tank = 40 %".'),
]
Word = Annotated[str | None, typer.Argument(metavar="WORD", help="One word, or part of one.")]


def why(
    boat: BoatFile,
    key: Key = None,
    water: InWater = None,
    tanks: WithTanks = None,
    as_json: Json = False,
) -> None:
    """Why a figure is what it is: formula, values, source, how sure."""
    with working():
        from trimdive.cli.typed import state_of
        from trimdive.cli.why_text import keys_json, keys_text, why_json, why_text

        her = opened(boat, water)
        state = None if tanks is None else state_of(tanks, her)
        if key is None:
            answer = keys_json(her) if as_json else [*keys_text(her)]
        else:
            answer = why_json(her, key, state) if as_json else [*why_text(her, key, state)]
    finish(her, answer, boat, {"--water": water})


def words(word: Word = None) -> None:
    """What the words mean, in a line each."""
    from trimdive.cli.why_text import words_text

    tell([*words_text(word or "")])


def add_to(app: typer.Typer) -> None:
    """Add the commands."""
    app.command("why", cls=Answer)(why)
    app.command("words", cls=Answer)(words)

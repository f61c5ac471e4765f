"""How a command ends: its answer on the terminal, or one sentence about what to mend."""

import json
import math
import shlex
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from traceback import extract_tb
from types import MappingProxyType
from typing import TYPE_CHECKING, NoReturn

import typer
from typer.core import TyperCommand
from typer.exceptions import TyperException

from trimdive.errors import BoatFileError, TrimdiveError

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.cli.layout import Block
    from trimdive.text.layout import Document

MAKE_ROOM = "Check that there is room and that you may write there."
IN_ORDER, PUT_RIGHT, BAD_INPUT, INTERRUPTED = 0, 1, 2, 130
NO_OPTIONS: Mapping[str, str | None] = MappingProxyType({})


class Answer(TyperCommand):
    """A command that tells bad input in one sentence and never in a traceback."""

    def invoke(self, ctx: typer.Context) -> object:  # pyright: ignore[reportIncompatibleMethodOverride]
        """Run the command."""
        try:
            return super().invoke(ctx)
        except TrimdiveError as error:
            refuse(error, bool(ctx.params.get("as_json")))
            raise typer.Exit(BAD_INPUT) from None
        except KeyboardInterrupt:
            raise typer.Exit(INTERRUPTED) from None
        except BrokenPipeError:  # whoever reads the answer has seen enough
            raise
        except (typer.Exit, typer.Abort, TyperException):
            raise
        except OSError as error:
            what = (error.strerror or "it cannot be written").lower()
            refuse(BoatFileError(what, error.filename or "the answer", MAKE_ROOM), as_json=False)
            raise typer.Exit(BAD_INPUT) from None
        except Exception as error:  # figures that nobody foresaw
            refuse(unforeseen(error, ctx), bool(ctx.params.get("as_json")))
            raise typer.Exit(BAD_INPUT) from None


def unforeseen(error: Exception, ctx: typer.Context) -> TrimdiveError:
    """Return what to say of what went wrong and was not foreseen."""
    last = extract_tb(error.__traceback__)[-1]
    what = f"that cannot be calculated ({type(error).__name__}, {Path(last.filename).name} "
    mend = "Check the figures changed last; a size, mass or place is far from what is usual."
    given = next((str(one) for one in ctx.params.values() if isinstance(one, Path)), ctx.info_name)
    return TrimdiveError(f"{what}{last.lineno})", given or "trimdive", mend)


def refuse(error: TrimdiveError, as_json: bool) -> None:
    """Tell on stderr what is wrong, where, and how to mend it: one line a mistake."""
    typer.echo(str(error), err=True)
    if as_json:
        first, *others = [
            {"where": one.where, "what": one.what, "mend": one.mend}
            for one in (error, *error.others)
        ]
        further = {"others": others, "left": error.left} if others else {}
        print_json({"error": first | further})


def print_json(document: "Document") -> None:
    """Print one JSON document."""
    typer.echo(json.dumps(plain(document), ensure_ascii=False, indent=2, allow_nan=False))


def plain(value: object) -> object:
    """Return a value with what is no number as null, for JSON."""
    if isinstance(value, Mapping):
        return {str(key): plain(one) for key, one in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, str):
        return [plain(one) for one in value]
    if isinstance(value, float):
        return float(value) if math.isfinite(value) else None
    return value


def pointers(
    her: "Assessment", given: Path, options: Mapping[str, str | None], shows: str
) -> Iterator[str]:
    """Yield how much is to be put right, and the command that lists it.

    Args:
        her: The boat.
        given: BOAT as typed.
        options: What was typed that makes her another boat or her water another, by its option.
        shows: The command whose list is shown already: "check", "bench" or "fit".
    """
    from trimdive.text.board_short import NOT_TRIED
    from trimdive.text.words import not_entered, things

    boat = shlex.quote(str(given))
    typed = [f" {name} {shlex.quote(text)}" for name, text in options.items() if text]
    if her.urgent and shows != "check":
        yield f"{things(her.urgent)}: trimdive check {boat}{''.join(typed)}"
    bench = [things(her.urgent_on_bench)] if her.urgent_on_bench else []
    bench += [not_entered(her)] if her.not_entered else []
    if bench and shows != "bench":
        yield f"On the bench: {', '.join(bench)}: trimdive bench {boat}"
    if shows == "check" and her.boat.hatches:
        yield f"Not looked at here: {NOT_TRIED}: trimdive fit {boat}"


def tell(answer: "Document | list[Block] | str") -> None:
    """Print an answer: a JSON document, text and tables, or text as it is, not wrapped."""
    if isinstance(answer, dict):
        print_json(answer)
        return
    if isinstance(answer, str):
        typer.echo(answer)
        return
    from trimdive.cli.layout import console

    terminal = console()
    for block in answer:
        terminal.print(block)


def finish(
    her: "Assessment",
    answer: "Document | list[Block]",
    given: Path | None = None,
    options: Mapping[str, str | None] = NO_OPTIONS,
    shows: str = "",
    care: str = "",
    is_wanting: bool = False,
) -> NoReturn:
    """Print an answer and end: 0 in order, 1 when anything must be put right or entered.

    Args:
        her: The boat.
        answer: A JSON document, or text and tables.
        given: BOAT as typed, to point at what tells the rest; None where nothing is to be told.
        options: What was typed that makes her another boat or her water another, by its option;
            check is to look at the same.
        shows: The command whose list the answer shows already: "check", "bench" or "fit".
        is_wanting: Whether the answer has something to put right that is looked for there alone.
        care: Whose cautions end the answer, as their table calls it; "" for none.
    """
    from trimdive.text.care import care as cautioned
    from trimdive.text.care import care_words
    from trimdive.text.layout import heading

    if isinstance(answer, list) and given is not None:
        answer += [heading(text) for text in pointers(her, given, options, shows)]
    kinds = [plant.kind for plant in her.boat.plants]
    if isinstance(answer, list) and care:
        answer.extend(cautioned(care, kinds))
    elif isinstance(answer, dict) and care:
        answer = {**answer, "cautions": care_words(care, kinds)}
    tell(answer)
    raise typer.Exit(IN_ORDER if her.wholly_in_order and not is_wanting else PUT_RIGHT)

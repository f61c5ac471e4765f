"""What is asked of a weight list: what it does not say, what to write, and what to type instead."""

from trimdive.text.list_words import rows_named, rows_text
from trimdive.text.said import says
from trimdive.text.say import Say


@says("unit-not-entered")
def _unit_not_entered(say: Say, head: str, unit: str) -> str:
    return f"the list does not say the unit of '{head}' ({unit} is likely)"


@says("write-unit")
def _write_unit(say: Say, head: str, unit: str) -> str:
    return f"Write it in the heading: {head} [{unit}]."


@says("type-unit")
def _type_unit(say: Say, kind: str, unit: str) -> str:
    return f"--{kind}-unit {unit}"


@says("pieces-not-entered")
def _pieces_not_entered(say: Say) -> str:
    return "there are several pieces of some parts, and nothing says whether a mass is of one"


@says("write-pieces")
def _write_pieces(say: Say) -> str:
    return "Name that column 'mass each' or 'mass of all'."


@says("type-pieces")
def _type_pieces(say: Say) -> str:
    return "--mass-of each or --mass-of all"


@says("arm-from-nowhere")
def _arm_from_nowhere(say: Say, rows: tuple[int, ...], of: int) -> str:
    return f"{_parts(rows, of)} a lever arm, and nothing says where it is measured from"


@says("write-end")
def _write_end(say: Say) -> str:
    return "Name that column 'from stern' or 'from bow'."


@says("type-end")
def _type_end(say: Say) -> str:
    return '--from stern, --from bow, or where its zero lies: --from "1150 mm"'


@says("place-below-zero")
def _place_below_zero(say: Say, rows: tuple[int, ...], of: int) -> str:
    return f"{_parts(rows, of)} a place below zero"


@says("write-zero")
def _write_zero(say: Say) -> str:
    return "If zero lies along the hull, say how far it is from the stern."


@says("type-zero")
def _type_zero(say: Say) -> str:
    return '--from "1150 mm" for a zero so far from the stern'


@says("no-place-along")
def _no_place_along(say: Say, rows: tuple[int, ...], of: int) -> str:
    return f"{_parts(rows, of)} no place along the boat"


@says("write-x")
def _write_x(say: Say) -> str:
    return "Add a column x [mm]."


@says("type-x")
def _type_x(say: Say) -> str:
    return '--x "600 mm" for all of them until you know better'


@says("no-height")
def _no_height(say: Say, rows: tuple[int, ...], of: int) -> str:
    return f"{_parts(rows, of)} no height above the keel line"


@says("write-z")
def _write_z(say: Say) -> str:
    return "Add a column z [mm]."


@says("type-z")
def _type_z(say: Say) -> str:
    return '--z "60 mm" for all of them until you know better'


@says("no-volume")
def _no_volume(say: Say, rows: tuple[int, ...], of: int) -> str:
    return f"{_parts(rows, of)} no volume or material"


@says("write-material")
def _write_material(say: Say) -> str:
    return "Add a column material or volume."


@says("type-material")
def _type_material(say: Say) -> str:
    return "--material ABS or --inside CYLINDER"


@says("rows-like-guesses")
def _rows_like_guesses(say: Say, rows: tuple[int, ...], names: tuple[tuple[str, str], ...]) -> str:
    pairs = "; ".join(f"'{row}' and '{piece}'" for row, piece in names)
    return f"{rows_named(rows)} may already be aboard as a guess ({pairs})"


@says("write-name-aboard")
def _write_name_aboard(say: Say) -> str:
    return "Give it the name it has aboard, or both count."


@says("type-same")
def _type_same(say: Say) -> str:
    return "--same yes where they are the same part, --same no where both are aboard"


def _parts(rows: tuple[int, ...], of: int) -> str:
    """Return so many of all parts, with their rows, as the beginning of a sentence."""
    if len(rows) == of:
        return "every part has"
    verb = "has" if len(rows) == 1 else "have"
    return f"{len(rows)} of {of} parts (row{'s' if len(rows) > 1 else ''} {rows_text(rows)}) {verb}"

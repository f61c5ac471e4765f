"""A weight list in words: its rows, its masses, whether its sums are right, what is still asked."""

from collections.abc import Iterable
from functools import partial
from typing import TYPE_CHECKING, cast

from trimdive.errors import ListError
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.text.sentence import capital
from trimdive.units import number_in, unit_named
from trimdive.weightlists import Ask, ColumnRead, Item, ListPreview, Plan, RowRead, SumRead
from trimdive.weightlists.parts import Remark, quantity

if TYPE_CHECKING:
    from trimdive.fact import Fact

FINEST, SHOWN = 8, 6  # decimals of a kilogram, and figures, that a person is shown
MOST_RUNS = 8  # of row numbers that are named


def rows_named(numbers: Iterable[int]) -> str:
    """Return rows by their numbers, with the word before them.

    >>> rows_named([13]), rows_named([4, 5])
    ('row 13', 'rows 4, 5')
    """
    all_ = list(numbers)
    return f"row{'' if len(all_) == 1 else 's'} {rows_text(all_)}"


def rows_text(numbers: Iterable[int]) -> str:
    """Return row numbers, runs of them joined.

    >>> rows_text([3, 4, 5, 9])
    '3 to 5, 9'
    """
    runs: list[list[int]] = []
    for number in sorted(numbers):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    texts = [f"{a}" if a == b else f"{a}, {b}" if b == a + 1 else f"{a} to {b}" for a, b in runs]
    return ", ".join(texts[:MOST_RUNS]) + (", …" if len(texts) > MOST_RUNS else "")


def shown(mass: float, unit: str) -> str:
    """Return a mass [kg] as a person reads it, to six figures; dust of sums is not shown.

    >>> shown(0.402563, "oz"), shown(0.31, "g")
    ('14.2 oz', '310 g')
    """
    name = unit_named(unit, "mass").name
    number = number_in(round(mass, FINEST), "mass", name)
    return f"{float(f'{number:.{SHOWN}g}'):.9g} {name}"


def sum_sentence(say: Say, one: SumRead, unit: str) -> str:
    """Return in a sentence whether a stated sum is that of its rows.

    Args:
        say: How figures are written.
        one: The sum.
        unit: In which the list has its masses.
    """
    start = _stated(one, unit)
    off = shown(abs(one.difference), unit)
    if not any(digit in off for digit in "123456789"):
        return f"{start}: it adds up."
    way = "more" if one.difference > 0 else "less"
    if one.agrees:
        return f"{start}: {off} {way}, which rounding explains."
    hint = f" {closed(said(say, one.hint))}" if one.hint else ""
    return f"{start}: it does not add up, the list states {off} {way}.{hint}"


def _stated(one: SumRead, unit: str) -> str:
    """Return what a sum states, and what its rows make with the margins."""
    stated, found = (shown(mass, unit) for mass in (one.stated, one.found))
    many = f"{len(one.rows)} parts ({rows_named(one.rows)}) make"
    many = many if len(one.rows) != 1 else f"one part ({rows_named(one.rows)}) makes"
    start = f"Row {one.row} states {stated}; its {many} {found}"
    if one.margins:
        named = ", ".join(f"row {row}" for row in one.margins)
        start += f", with what {named} adds {shown(one.found + one.beside, unit)}"
    return start


def closed(text: str) -> str:
    """Return a sentence with its capital letter and its full stop.

    >>> closed("the sum leaves it out?"), closed("row 3 makes the difference")
    ('The sum leaves it out?', 'Row 3 makes the difference.')
    """
    return f"{capital(text)}{'' if text.endswith('?') else '.'}"


def ask_sentence(say: Say, ask: Ask) -> str:
    """Return what is asked of a list, and what to write in it."""
    return f"{closed(said(say, ask.what))} {said(say, ask.mend)}"


def ask_typed(say: Say, ask: Ask) -> str:
    """Return how to answer it from the terminal: in the list, or by an option."""
    mend = said(say, ask.mend)
    return f"{mend[:-1]}, or add {said(say, ask.option)}." if ask.option else mend


def unanswered(say: Say, preview: ListPreview) -> ListError:
    """Return the error for the first thing that is still asked of a list."""
    first = preview.asks[0]
    return ListError(said(say, first.what), preview.name, ask_typed(say, first))


def aboard_words(plan: Plan) -> str:
    """Return how many rows are new, and how many are aboard already."""
    new, changed, same = (len(rows) for rows in (plan.new, plan.changes, plan.same))
    texts = [f"{changed} of them weighed again"] if changed else []
    if same:
        texts.append(f"{same} {'of them ' if not changed else ''}with the same mass")
    count = f"{new} new {'part' if new == 1 else 'parts'}; {changed + same} aboard already"
    return ", ".join([count, *texts])


def remarks(plan: Plan) -> Remark:
    """Return what writes, of a row and its part's name, what a boat file has no field for."""
    return partial(_remark, plan.preview.mass_unit)


def _remark(unit: str, item: Item, name: str) -> str:
    given = [item.words.get("group", ""), item.words.get("note", "")]
    if item.quantity != 1:
        one = quantity(item.mass / item.quantity, "mass", unit)
        given.append(f"{item.quantity:g} pieces of {one}")
    if name != item.name:
        given.append(f"in the list: {item.name}")
    return "; ".join(filter(None, given))


def column_words(say: Say, column: ColumnRead) -> str:
    """Return as what a column was understood, with the unit of its bare numbers."""
    why = column.why
    if why.kind == "column-counted":
        why = cast("Fact", why.values["column"])
    is_named = why.kind == "column-of-unit"
    unit = f" [{column.unit}]" if column.unit and not is_named else ""
    return f"{said(say, column.why)}{unit}"


def why_of(say: Say, row: RowRead) -> str:
    """Return why a row was taken for what it was, or nothing."""
    return said(say, row.why) if row.why else ""


def doubts_of(say: Say, item: Item) -> str:
    """Return what of a row could not be taken over, on one line."""
    return "; ".join(said(say, one) for one in item.doubts)

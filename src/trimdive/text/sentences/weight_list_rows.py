"""What is said of the rows of a weight list, of its parts, and of its sums."""

from trimdive.fact import Fact
from trimdive.text.list_words import rows_named
from trimdive.text.said import said, says
from trimdive.text.say import Say

# Of a row.


@says("row-of-zeros")
def _row_of_zeros(say: Say) -> str:
    return "nothing but formulas or zeros"


@says("row-of-heads")
def _row_of_heads(say: Say) -> str:
    return "the headings again"


@says("row-above-heads")
def _row_above_heads(say: Say) -> str:
    return "above the headings"


@says("row-of-other-heads")
def _row_of_other_heads(say: Say) -> str:
    return "other headings, of another list"


@says("row-below-other-heads")
def _row_below_other_heads(say: Say, heads: int) -> str:
    return f"it is below other headings (row {heads}); put that list in a file of its own"


@says("row-of-formula")
def _row_of_formula(say: Say) -> str:
    return "its mass is a formula, not a result; save the list with its values"


@says("row-too-wide")
def _row_too_wide(say: Say, cells: int, heads: int) -> str:
    return f"it has {cells} cells under {heads} headings; put cells that hold a comma in quotes"


@says("row-mass-to-come")
def _row_mass_to_come(say: Say, typed: str) -> str:
    return f"its mass is still to come ('{typed}')"


@says("row-of-factor")
def _row_of_factor(say: Say) -> str:
    return "a factor on the others, not a part"


@says("row-worked-out")
def _row_worked_out(say: Say) -> str:
    return "calculated from the others, not a part"


@says("row-named-total")
def _row_named_total(say: Say) -> str:
    return "named so"


@says("row-sums")
def _row_sums(say: Say, formula: str) -> str:
    return f"its formula is {formula}"


@says("row-total-unstated")
def _row_total_unstated(say: Say) -> str:
    return "it names a total but gives none"


@says("row-total-without-result")
def _row_total_without_result(say: Say, formula: str) -> str:
    return f"{formula} has no stored result"


@says("row-without-result")
def _row_without_result(say: Say, formula: str) -> str:
    return f"{formula} has no stored result; open and save it in the spreadsheet"


@says("row-mass-unread")
def _row_mass_unread(say: Say, what: str, mend: str) -> str:
    return f"{what}; {mend[:1].lower()}{mend[1:].rstrip('.')}"


@says("row-mass-shared")
def _row_mass_shared(say: Say, row: int) -> str:
    return f"its mass is shared with row {row} (cells merged)"


@says("row-mass-missing")
def _row_mass_missing(say: Say) -> str:
    return "its mass is missing"


@says("row-of-words")
def _row_of_words(say: Say) -> str:
    return "words only"


@says("row-heading-or-part")
def _row_heading_or_part(say: Say) -> str:
    return "words without a mass; if it is a part, its mass is missing"


@says("row-nameless")
def _row_nameless(say: Say) -> str:
    return "a mass without a name"


@says("row-mass-below-zero")
def _row_mass_below_zero(say: Say) -> str:
    return "its mass is below zero; what pulls up belongs under 'hung in water'"


@says("row-without-pieces")
def _row_without_pieces(say: Say) -> str:
    return "no pieces of it; nothing is added"


@says("row-part")
def _row_part(say: Say, pieces: float, doubts: tuple[Fact, ...]) -> str:
    counted = [f"{pieces:g} pieces"] if pieces != 1 else []
    return "; ".join([*counted, *(said(say, one) for one in doubts)])


@says("row-sum-of")
def _row_sum_of(say: Say, rows: tuple[int, ...], has_name: bool) -> str:
    return f"{'' if has_name else 'no name, and '}the sum of {rows_named(rows)}"


@says("row-below-total")
def _row_below_total(say: Say) -> str:
    return (
        "it stands below the total and may be calculated from it; if it is a part, put it above "
        "the total"
    )


@says("row-worked-out-below")
def _row_worked_out_below(say: Say) -> str:
    return "calculated from the others and below their total; not a part"


@says("row-named-as-group")
def _row_named_as_group(say: Say, rows: tuple[int, ...]) -> str:
    return (
        f"it is named as its group, whose {rows_named(rows)} weigh otherwise; a part needs a name "
        "of its own"
    )


@says("row-as-heavy-as")
def _row_as_heavy_as(say: Say, rows: tuple[int, ...]) -> str:
    return (
        f"it weighs as much as {rows_named(rows)} together; call it subtotal, or give it a place "
        "if it is a part"
    )


# Of a part, what could not be taken over.


@says("aboard-not-clear")
def _aboard_not_clear(say: Say, typed: str) -> str:
    return f"'{typed}' does not say whether it is aboard; yes or no"


@says("known-not-clear")
def _known_not_clear(say: Say, typed: str) -> str:
    return f"'{typed}' does not say how the mass is known"


@says("spread-unread")
def _spread_unread(say: Say, what: str) -> str:
    return what


@says("figure-unread")
def _figure_unread(say: Say, head: str, what: str) -> str:
    return f"{head}: {what}"


@says("material-not-in-table")
def _material_not_in_table(say: Say, typed: str) -> str:
    return f"material '{typed}' is not in the table of materials"


@says("no-end")
def _no_end(say: Say, typed: str) -> str:
    return f"'{typed}' is not an end to measure from; it is ignored"


@says("two-places")
def _two_places(say: Say, taken: str, typed: str, head: str) -> str:
    return (
        f"two places along her: that under {taken} is taken, {typed} under {head} is ignored; "
        "check that both mean the same place"
    )


@says("ends-beside-middle")
def _ends_beside_middle(say: Say) -> str:
    return "its ends are ignored: its centre is given"


# Of a sum that is not that of its rows.


@says("sum-lacks-rows")
def _sum_lacks_rows(say: Say, rows: tuple[int, ...]) -> str:
    many = ("are", "are not added") if len(rows) > 1 else ("is", "is not added")
    return f"{rows_named(rows)}, which {many[0]} not understood, {many[1]}"


@says("sum-has-row")
def _sum_has_row(say: Say, row: int) -> str:
    return f"row {row}, which is not added, makes the difference"


@says("sum-counts-twice")
def _sum_counts_twice(say: Say, row: int, name: str) -> str:
    return f"it is as much as row {row} ({name}): the list's sum counts it twice?"


@says("sum-leaves-out")
def _sum_leaves_out(say: Say, row: int, name: str) -> str:
    return f"it is as much as row {row} ({name}): the list's sum leaves it out?"


@says("sum-counts-one-piece")
def _sum_counts_one_piece(say: Say, row: int, name: str) -> str:
    return f"the list's sum counts one piece of row {row} ({name})?"


@says("sum-off-one-piece")
def _sum_off_one_piece(say: Say, row: int, name: str) -> str:
    return f"it is as much as one piece of row {row} ({name})"

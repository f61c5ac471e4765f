"""The words for mends that others stand in the way of."""

from collections.abc import Sequence

from trimdive.fact import Fact
from trimdive.text.said import said, says
from trimdive.text.say import Say, listed


@says("nothing")
def _nothing(_: Say) -> str:
    return ""


@says("in-the-way")
def _in_the_way(say: Say, mend: Fact, is_out: bool, names: tuple[str, str]) -> str:
    one, other = names
    does = f"reach out of {other}" if is_out else f"share room with {other}"
    return f"{said(say, mend)} But {one} would {does} there: clear that first."


@says("see-first")
def _see_first(say: Say, is_calculated: bool, brings: Fact | None) -> str:
    why = "at present it makes her worse"
    if not is_calculated:
        why = "the change cannot be calculated at present"
    elif brings is not None:
        why = f"at present it would cause: {said(say, brings)}"
    return f"Fix the other faults first ({why})."


@says("put-right-first")
def _put_right_first(_: Say, names: Sequence[str], are_many: bool) -> str:
    return f"once {listed(names)} {'are' if are_many else 'is'} put right"

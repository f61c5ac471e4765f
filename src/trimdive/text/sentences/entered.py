"""What a button entered of mends that the builder does, or that hang on an if.

Each is of the kind of its mend, with ``-by-button`` behind it, and holds the same.
"""

from trimdive.fact import Fact
from trimdive.text.said import says
from trimdive.text.say import Say
from trimdive.text.sentences.meshes_found import NAMES


@says("drill-holes-by-button")
def _drill_holes(_: Say, name: str) -> str:
    return f"{name} entered as drilled, low and at its highest point"


@says("drill-print-by-button")
def _drill_print(_: Say, name: str) -> str:
    return f"{name} entered as drilled, low and at its highest point"


@says("unseal-by-button")
def _unseal(_: Say, name: str, stands: bool) -> str:
    return f"{name} entered as not sealed{', open below' if stands else ''}"


@says("enter-open-below-by-button")
def _open_below(_: Say, name: str) -> str:
    return f"{name} entered as open below"


@says("lies-inside-by-button")
def _lies_inside(_: Say, name: str, cylinder: str) -> str:
    return f"{name} entered as inside {cylinder}"


@says("enter-inside-at-by-button")
def _inside_at(say: Say, name: str, cylinder: str, x: float, why: str) -> str:
    return f"{name} entered as inside {cylinder}, {say.place(x)}"


@says("enter-at-works-by-button")
def _at_works(say: Say, name: str, cylinder: str, x: float) -> str:
    return f"{name} entered as inside {cylinder}, {say.place(x)}"


@says("write-file-unit-by-button")
def _file_unit(_: Say, unit: str) -> str:
    return f"mesh file read in {NAMES.get(unit, unit)}"


@says("slip-write-by-button")
def _slip(_: Say, would: str, why: Fact) -> str:
    return f"{would} entered"


@says("write-if-plan-says-by-button")
def _of_plan(_: Say, likely: str) -> str:
    return f"{likely} entered"


@says("write-mm-for-m-by-button")
def _mm_for_m(say: Say, likely: float) -> str:
    return f"{say.length(likely)} entered"


@says("weigh-lead-by-button")
def _weigh_lead(say: Say, likely: float) -> str:
    return f"{say.mass(likely)} entered"


@says("write-unit-in-head-by-button")
def _in_head(_: Say, table: str, unit: str, instead: str) -> str:
    return f"{instead} for {unit} entered in the head of {table}"


@says("mark-keel-by-button")
def _mark_keel(_: Say, is_sharp: bool) -> str:
    return f"{'sharp' if is_sharp else 'round'} keel entered"


@says("scale-half-breadths-by-button")
def _half_breadths(_: Say, table: str, is_twice: bool) -> str:
    return f"all half-breadths of {table} {'halved' if is_twice else 'doubled'}"

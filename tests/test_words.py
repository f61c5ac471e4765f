"""English stands in few places: how many sentences each folder above the words still holds.

A sentence is a text of four words or more that is neither a document's, a field's description nor
an error's. The figures may only fall; where one has fallen, it is written down here.
"""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "src" / "trimdive"
WORDS = 4  # a text of so many words is a sentence [-]
HELD = {
    "assessment": 0,
    "bench": 57,
    "boatfile": 313,
    "bodies": 16,
    "clashes": 0,
    "data": 2,
    "depth": 3,
    "dive": 17,
    "dryspace": 6,
    "failsafe": 8,
    "findings": 276,
    "fromtub": 1,
    "kit": 4,
    "lines": 25,
    "linkages": 15,
    "lists": 146,
    "litres": 0,
    "meshes": 107,
    "place": 1,
    "plant": 75,
    "putright": 1,
    "reach": 2,
    "rest": 2,
    "seals": 8,
    "slips": 18,
    "starter": 52,
    "strength": 15,
    "sure": 7,
    "tape": 67,
    "tub": 7,
    "units": 14,
    "water": 4,
    "weights": 0,
    "wethands": 68,
    "why": 115,
}


def documents(tree: ast.AST) -> set[int]:
    """Return what documents modules, classes and functions."""
    found: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            first = node.body[0] if node.body else None
            if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant):
                found.add(id(first.value))
    return found


def allowed(tree: ast.AST) -> set[int]:
    """Return the texts of errors and of fields' descriptions."""
    found: set[int] = set()
    for node in ast.walk(tree):
        is_error = isinstance(node, ast.Raise)
        is_field = isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Field"
        if is_error or is_field:
            found |= {id(one) for one in ast.walk(node) if isinstance(one, ast.Constant)}
    return found


def sentences(folder: Path) -> int:
    """Return how many sentences the files of a folder hold."""
    count = 0
    for file in folder.rglob("*.py"):
        tree = ast.parse(file.read_text("utf-8"))
        skipped = documents(tree) | allowed(tree)
        count += sum(
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and len(node.value.split()) >= WORDS
            and id(node) not in skipped
            for node in ast.walk(tree)
        )
    return count


@pytest.mark.parametrize("name", HELD)
def test_no_folder_holds_more_sentences_than_it_did(name: str) -> None:
    assert sentences(PACKAGE / name) == HELD[name], "lower the figure, never raise it"


def test_every_folder_above_the_words_is_counted() -> None:
    below = {"text", "drawings", "charts", "sheets", "pond", "page", "cli", "notebook", "tables"}
    folders = {one.name for one in PACKAGE.iterdir() if (one / "__init__.py").exists()}
    assert folders - below == set(HELD)

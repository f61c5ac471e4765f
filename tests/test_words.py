"""English is made in ``text`` and below alone: no folder above it holds a sentence.

A sentence is a text of four words or more that is neither a document's, a field's description nor
an error's.
"""

import ast
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "src" / "trimdive"
WORDS = 4  # a text of so many words is a sentence [-]
BELOW = {"text", "pictures", "sheets", "pond", "page", "cli", "notebook"}  # where words stand
BELOW |= {"errors.py"}  # where those of errors do


def documents(tree: ast.AST) -> set[int]:
    """Return what documents modules, classes and functions."""
    found: set[int] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            first = node.body[0] if node.body else None
            if isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant):
                found.add(id(first.value))
    return found


def name_of(node: ast.AST | None) -> str:
    """Return what is called or named, its last part: "BoatError" of "errors.BoatError"."""
    return str(getattr(node, "id", None) or getattr(node, "attr", None) or "")


def is_error(node: ast.AST) -> bool:
    """Return whether a node makes an error: it raises one, or calls one by its name.

    A mistake is what refuses a boat file: an error for each of them is raised of it. A fence makes
    an error of whatever is raised within it.
    """
    if isinstance(node, ast.Raise):
        return True
    return isinstance(node, ast.Call) and name_of(node.func).endswith(("Error", "Mistake", "fence"))


def is_fields_or_pattern(node: ast.AST) -> bool:
    """Return whether a node describes a field, compiles a pattern, or names a type."""
    return isinstance(node, ast.Call) and name_of(node.func) in {"Field", "compile", "cast"}


def makes_errors(function: ast.FunctionDef) -> bool:
    """Return whether all that a function returns is an error, or that it never returns."""
    answer = ast.unparse(function.returns) if function.returns else ""
    kinds = answer.replace('"', "").removesuffix(" | None").split(" | ")
    return all(
        kind.endswith(("Error", "Mistake", "Mistakes")) or kind == "NoReturn" for kind in kinds
    )


def held(node: ast.AST) -> set[int]:
    """Return the texts within a node."""
    return {id(one) for one in ast.walk(node) if isinstance(one, ast.Constant)}


def put_into(function: ast.FunctionDef, names: set[str]) -> set[int]:
    """Return the texts that a function gives to some names."""
    found: set[int] = set()
    for node in ast.walk(function):
        if isinstance(node, ast.Assign | ast.AugAssign | ast.AnnAssign) and node.value:
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            given = {name_of(one) for target in targets for one in ast.walk(target)}
            if given & names:
                found |= held(node.value)
    return found


def allowed(tree: ast.AST) -> set[int]:
    """Return the texts of errors, of fields' descriptions and of patterns."""
    found: set[int] = set()
    for node in ast.walk(tree):
        if is_error(node) or is_fields_or_pattern(node):
            found |= held(node)
        if isinstance(node, ast.FunctionDef):
            found |= held(node.returns) if node.returns else set()
            if makes_errors(node):
                found |= held(node)
            made = [one for one in ast.walk(node) if is_error(one)]
            names = {one.id for each in made for one in ast.walk(each) if isinstance(one, ast.Name)}
            found |= put_into(node, names)
    return found


def sentences(file: Path) -> list[str]:
    """Return the sentences that a file holds, each with its line."""
    tree = ast.parse(file.read_text("utf-8"))
    skipped = documents(tree) | allowed(tree)
    return [
        f"{file.relative_to(PACKAGE)}:{node.lineno}: {node.value}"
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and len(node.value.split()) >= WORDS
        and id(node) not in skipped
    ]


def test_no_sentence_stands_above_the_words() -> None:
    files = [one for one in PACKAGE.rglob("*.py") if one.relative_to(PACKAGE).parts[0] not in BELOW]
    assert len(files) > len(BELOW)
    assert [answer for file in files for answer in sentences(file)] == []


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ('what = "she will not dive today"', 1),
        ('raise BoatError("she will not dive today")', 0),
        ('"""She will not dive today."""', 0),
        ('x = Field(description="she will not dive today")', 0),
        ('x = "trim bow down"', 0),
        ('def f() -> str:\n    return "she will not dive today"', 1),
        (
            'def f() -> BoatError:\n    why = "she will not dive today"\n    return BoatError(why)',
            0,
        ),
    ],
)
def test_what_a_sentence_is(text: str, count: int) -> None:
    tree = ast.parse(text)
    skipped = documents(tree) | allowed(tree)
    held = [
        one for one in ast.walk(tree) if isinstance(one, ast.Constant) and id(one) not in skipped
    ]
    found = [one for one in held if isinstance(one.value, str) and len(one.value.split()) >= WORDS]
    assert len(found) == count

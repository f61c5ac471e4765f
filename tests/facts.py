"""Where the tables lie, and what the code cites."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

SOURCE = Path(__file__).parents[1] / "src" / "trimdive"
FILES = sorted(SOURCE.rglob("*.py"))
TABLES = sorted(path.stem for path in (SOURCE / "data").glob("*.csv"))


@cache
def tree(file: Path) -> ast.Module:
    """Return a program as Python reads it, read once for all that is asked of it."""
    return ast.parse(file.read_text("utf-8"))


def docstrings(file: Path) -> Iterator[tuple[ast.AST, str]]:
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
            text = ast.get_docstring(node)
            if text:
                yield node, text


def cited(text: str) -> set[str]:
    """Return the keys in square brackets in the paragraphs that begin with Source or Sources."""
    found = re.findall(r"^ *Sources?:(.*?)(?:\n\s*\n|\Z)", text, flags=re.DOTALL | re.MULTILINE)
    return {
        key for part in found for key in re.findall(r"\[([a-z][a-z0-9]*(?:-[a-z0-9]+)+)\]", part)
    }

"""The order in which the code may import, as ARCHITECTURE.md has it, and the size of its pieces."""

import ast
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest
from tests.facts import FILES, SOURCE, tree

HOLDERS = {  # folders that only hold others
    "geometry", "hydrostatics", "ballast", "vessels", "placing", "trials", "estimates", "pictures",
}  # fmt: skip
LAYERS: list[set[str]] = [
    HOLDERS,
    {"errors", "records"},
    {"fact"},
    {"data"},
    {"units"},
    {"boatfile"},
    {"water"},
    {"geometry.lines"},
    {"geometry.meshes"},
    {"geometry.solids"},
    {"geometry.clashes"},
    {"hydrostatics.weights"},
    {"weightlists"},
    {"hydrostatics.equilibrium"},
    {"uncertainty"},
    {"vessels.dryspace"},
    {
        "ballast.need", "ballast.dive", "ballast.depth", "ballast.reach", "estimates.tape", "plans",
        "placing.solve", "trials.readings", "estimates.wethands", "vessels.strength",
        "vessels.seals", "plant", "plant.linkages", "fit", "marking", "flooding", "drive", "radio",
        "handling", "patterns",
    },
    {"estimates.starter", "trials.photographs"},
    {"plant.failsafe"},
    {"bench"},
    {"findings"},
    {"findings.slips"},
    {"tables"},
    {"assessment"},
    {"trials.correction"},
    {"placing.kit"},
    {"edits"},
    {"arranging"},
    {"why"},
    {"text"},
    {"pictures.drawings", "pictures.charts"},
    {"sheets", "book"},
    {"pond"},
    {"notebook"},
    {"page"},
    {"cli"},
    {"__init__", "__main__"},
]  # fmt: skip
HEIGHT = {name: height for height, layer in enumerate(LAYERS) for name in layer}

FENCES = {
    "typer": {"cli"},
    "rich": {"cli"},
    "starlette": {"page"},
    "uvicorn": {"page"},
    "jinja2": {"page"},
    "pint": {"units"},
    "pydantic": {"boatfile"},
    "pydantic_core": {"boatfile"},
    "tomlkit": {"boatfile"},
    "gsw": {"water"},
    "openpyxl": {"weightlists"},
    "typst": {"sheets", "book"},
    "vl_convert": {"pictures.charts"},
    "pikepdf": {"sheets", "book"},
    "ezdxf": {"sheets"},
    "shapely": {"patterns"},
    "contourpy": {"patterns"},
    "PIL": {"plans"},
    "pypdfium2": {"plans"},
}
# slow to load, seldom needed
LAZY = {"gsw", "manifold3d", "openpyxl", "pint", "tomlkit", "trimesh", "vl_convert"}
LAZY |= {"ezdxf", "pikepdf", "jinja2", "starlette", "uvicorn", "PIL", "pypdfium2"}


def layer_of(parts: Sequence[str]) -> str:
    """Return the folder with a height that a path lies in; one within another comes first."""
    two = ".".join(parts[:2])
    return two if two in HEIGHT else parts[0].removesuffix(".py")


@dataclass(frozen=True, slots=True, kw_only=True)
class Import:
    """One import statement: from which file and line, of what, and whether it runs at once."""

    file: Path
    line: int
    name: str
    at_start: bool

    @property
    def where(self) -> str:
        """Return file and line for a person."""
        return f"{self.file.relative_to(SOURCE)}:{self.line}"

    @property
    def layer(self) -> str:
        """Return the folder, or the file, that the statement stands in."""
        return layer_of(self.file.relative_to(SOURCE).parts)


def for_types_only(node: ast.AST) -> bool:
    """Return whether the node is ``if TYPE_CHECKING:``."""
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)


def imports_below(node: ast.AST, file: Path, at_start: bool) -> Iterator[Import]:
    """Yield every import under the node that runs some time."""
    for child in ast.iter_child_nodes(node):
        if for_types_only(child):
            continue
        if isinstance(child, ast.Import):
            for name in child.names:
                yield Import(file=file, line=child.lineno, name=name.name, at_start=at_start)
        elif isinstance(child, ast.ImportFrom):
            assert child.level == 0, f"{file}:{child.lineno}: a relative import"
            for name in child.names:
                full = f"{child.module}.{name.name}"
                yield Import(file=file, line=child.lineno, name=full, at_start=at_start)
        else:
            inside = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
            yield from imports_below(child, file, at_start and not inside)


def imports_of(file: Path) -> list[Import]:
    return list(imports_below(tree(file), file, at_start=True))


@cache
def imports() -> list[Import]:
    """Return every import of the program."""
    return [entry for file in FILES for entry in imports_of(file)]


def test_something_is_read() -> None:
    assert len(FILES) > 10
    assert len(imports()) > 20


def test_every_folder_has_a_height() -> None:
    found = {layer_of(file.relative_to(SOURCE).parts) for file in FILES}
    assert found <= set(HEIGHT), "give it a place in LAYERS and in ARCHITECTURE.md"


def test_every_folder_and_every_file_that_is_named_is_described() -> None:
    text = (SOURCE.parents[1] / "ARCHITECTURE.md").read_text("utf-8")
    table = text.partition("## What lies where")[2].partition("## Where facts live")[0]
    rows = [row.split("|")[1:3] for row in table.splitlines() if row.startswith("| `")]
    named = [name.rstrip("/") for row in rows for name in re.findall(r"`([^`]+)`", row[0])]
    single = {file.name for file in SOURCE.glob("*.py")} - {"__init__.py"}
    folders = {layer_of(file.relative_to(SOURCE).parts) for file in FILES} - HOLDERS
    paths = {name.replace(".", "/") for name in folders}
    there = single | {name for name in paths if (SOURCE / name).is_dir()}
    assert sorted(named) == sorted(there)
    for listed, holds in rows:
        places = [SOURCE / name.strip("`/") for name in re.findall(r"`[^`]+/`", listed)]
        for name in re.findall(r"`([\w.]+\.(?:py|js))`", holds):
            assert any((place / name).exists() for place in places), name


def upward(entry: Import) -> bool:
    """Return whether the import points at its own height or above, outside its own folder."""
    package, *rest = entry.name.split(".")
    if package != "trimdive" or not rest or layer_of(rest) == entry.layer:
        return False
    return HEIGHT.get(layer_of(rest), -1) >= HEIGHT[entry.layer]


def test_imports_point_downwards() -> None:
    wrong = [f"{entry.where} imports {entry.name}" for entry in imports() if upward(entry)]
    assert wrong == []


@pytest.mark.parametrize("library", list(FENCES))
def test_libraries_stay_in_their_folders(library: str) -> None:
    wrong = [
        f"{entry.where} imports {entry.name}"
        for entry in imports()
        if entry.name.split(".")[0] == library and entry.layer not in FENCES[library]
    ]
    assert wrong == []


def test_slow_libraries_are_loaded_only_when_used() -> None:
    folders = {layer_of(file.relative_to(SOURCE).parts) for file in FILES}
    names = ", ".join(f"trimdive.{folder}" for folder in sorted(folders) if "_" not in folder)
    program = f"import sys, {names}; print(*sorted(set(sys.modules) & {LAZY!r}))"
    result = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    assert result.stdout.split() == []


def test_no_file_is_past_400_lines() -> None:
    lengths = {
        str(file.relative_to(SOURCE)): len(file.read_text("utf-8").splitlines()) for file in FILES
    }
    assert {name: length for name, length in lengths.items() if length > 400} == {}


def test_no_file_holds_two_versions_of_a_line() -> None:
    """What a merge leaves where both sides changed a line is text like any other to a template."""
    kinds = {".py", ".html", ".css", ".js", ".csv", ".typ", ".json"}
    marks = tuple(f"{7 * sign} " for sign in "<>")
    found = [
        f"{file.relative_to(SOURCE)}:{number}"
        for file in SOURCE.rglob("*")
        if file.suffix in kinds
        for number, line in enumerate(file.read_text("utf-8").splitlines(), 1)
        if line.startswith(marks)
    ]
    assert found == []


def lines_of_code(function: ast.FunctionDef, lines: list[str]) -> int:
    """Return how many lines carry the function's code: no docstring, comment or blank line."""
    body = function.body[1:] if ast.get_docstring(function) else function.body
    if not body:
        return 0
    inside = [line.strip() for line in lines[body[0].lineno - 1 : body[-1].end_lineno]]
    return sum(1 for line in inside if line and not line.startswith("#"))


def functions(node: ast.AST, most: int = 40) -> Iterator[tuple[ast.FunctionDef, int]]:
    """Yield every function under the node and the most lines it may have: 5 inside another."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.FunctionDef):
            yield child, most
        yield from functions(child, 5 if isinstance(child, ast.FunctionDef) else most)


def test_functions_are_short() -> None:
    lengths = {
        f"{file.relative_to(SOURCE)}: {function.name}, line {function.lineno}": (
            lines_of_code(function, lines),
            most,
        )
        for file in FILES
        for lines in (file.read_text("utf-8").splitlines(),)
        for function, most in functions(tree(file))
    }
    assert len(lengths) > len(FILES)
    assert {name: length for name, (length, most) in lengths.items() if length > most} == {}


@pytest.mark.parametrize(
    ("text", "layer", "count"),
    [
        ("from trimdive.cli import main", "water", 1),
        ("import trimdive.hydrostatics.equilibrium.energy", "geometry/solids", 1),
        ("def f():\n    from trimdive.page import serve", "hydrostatics/equilibrium", 1),
        ("from trimdive.errors import DataError", "water", 0),
        ("from trimdive.water import named", "water", 0),
        ("from trimdive.sheets import tile", "book", 1),
        ("if TYPE_CHECKING:\n    from trimdive.cli import main", "water", 0),
    ],
)
def test_the_order_is_told(text: str, layer: str, count: int) -> None:
    found = imports_below(ast.parse(text), SOURCE / layer / "x.py", at_start=True)
    assert sum(upward(entry) for entry in found) == count


def needs(file: Path) -> set[str]:
    """Return what a module loads as soon as it is loaded itself, but its own folders."""
    loaded: set[str] = set()
    for node in tree(file).body:
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("trimdive"):
            inner = {f"{node.module}.{name.name}" for name in node.names}
            loaded |= (inner & set(MODULES)) or {str(node.module)}
    above = {".".join(one.split(".")[:n]) for one in loaded for n in range(1, one.count(".") + 1)}
    me = module_of(file)
    return {one for one in loaded | above if one != me and not me.startswith(f"{one}.")}


def module_of(file: Path) -> str:
    parts = ("trimdive", *file.relative_to(SOURCE).with_suffix("").parts)
    return ".".join(parts).removesuffix(".__init__")


MODULES = {module_of(file): file for file in FILES}


def test_every_module_can_be_loaded_first() -> None:
    """Two modules that load each other can only be loaded in one order."""
    graph = {name: needs(file) for name, file in MODULES.items()}
    assert len(graph["trimdive.page.newboat"]) > 5
    list(TopologicalSorter(graph).static_order())


TESTS = Path(__file__).parent


@pytest.fixture(scope="module", autouse=True)
def _programs_are_kept_as_long() -> Iterator[None]:
    yield
    tree.cache_clear()
    trees.cache_clear()


@cache
def trees() -> dict[Path, ast.AST]:
    """Return every file of tests as Python reads it."""
    return {file: ast.parse(file.read_text("utf-8")) for file in sorted(TESTS.rglob("*.py"))}


def names_imported(tree: ast.AST) -> set[str]:
    """Return the names of all modules, and of what is taken out of them, that a file imports."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            found |= {str(node.module), *(f"{node.module}.{name.name}" for name in node.names)}
    return found


def test_no_file_of_tests_stands_on_another() -> None:
    """What two of them need lies in a file that holds no tests."""
    modules = {
        ".".join(("tests", *file.relative_to(TESTS).with_suffix("").parts)) for file in trees()
    }
    holding_tests = {name for name in modules if name.rpartition(".")[2].startswith("test_")}
    assert len(holding_tests) > 100
    wrong = {
        f"{file.relative_to(TESTS)} imports {name}"
        for file, tree in trees().items()
        for name in names_imported(tree) & holding_tests
    }
    assert wrong == set()


def test_hypothesis_has_one_profile_and_no_test_a_deadline_of_its_own() -> None:
    """A slow machine is no fault: nothing may fail by the clock."""
    found = [
        file.relative_to(TESTS).as_posix()
        for file, tree in trees().items()
        for node in ast.walk(tree)
        if isinstance(node, ast.keyword) and node.arg == "deadline"
    ]
    assert found == ["conftest.py"]


def test_one_place_starts_a_browser() -> None:
    starting = "playwright.sync_api.sync_playwright"
    found = [file.name for file, tree in trees().items() if starting in names_imported(tree)]
    assert found == ["conftest.py"]

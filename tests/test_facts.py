"""The shipped tables, the units in docstrings and the sources cited: every fact has its origin."""

import ast
import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from pathlib import Path

import pint
import pytest
from tests.facts import FILES, SOURCE, TABLES, cited, docstrings, tree

from trimdive.data import Row, row, table
from trimdive.errors import DataError
from trimdive.water import Water

SOURCES = {entry["key"] for entry in table("sources")}
NO_UNIT = {"-", "1", "times"}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    """The units of a general library, read once, since that takes longer than what is asked."""
    return pint.UnitRegistry()


@pytest.fixture(scope="module", autouse=True)
def _programs_are_kept_as_long() -> Iterator[None]:
    yield
    tree.cache_clear()


def place(file: Path) -> str:
    """Return which file of the program it is, for whoever has to mend it."""
    return file.relative_to(SOURCE).as_posix()


def first_column(rows: tuple[Row, ...]) -> str:
    return next(iter(rows[0]))


@pytest.mark.parametrize("name", TABLES)
def test_rows_are_whole_and_keys_stand_once(name: str) -> None:
    rows = table(name)
    assert rows, "an empty table"
    for entry in rows:
        assert None not in entry, f"a cell too many: {entry}"
        assert None not in entry.values(), f"a cell too few: {entry}"
        assert all(cell == cell.strip() for cell in entry.values()), f"blanks: {entry}"
    keys = [entry[first_column(rows)] for entry in rows]
    assert "" not in keys
    assert sorted(set(keys)) == sorted(keys)


@pytest.mark.parametrize("name", [name for name in TABLES if name != "sources"])
def test_every_row_names_a_known_source(name: str) -> None:
    assert [entry for entry in table(name) if entry.get("source") not in SOURCES] == []


@pytest.mark.parametrize("name", [name for name in TABLES if "unit" in table(name)[0]])
def test_units_are_units(registry: pint.UnitRegistry, name: str) -> None:
    for entry in table(name):
        if entry["unit"] not in NO_UNIT:
            registry.parse_units(entry["unit"])  # raises on what is no unit


@pytest.mark.parametrize("name", [name for name in TABLES if name != "units"])
def test_no_unit_hides_in_a_head(name: str) -> None:
    for head in table(name)[0]:
        assert re.fullmatch(r"[a-z_]+", head), head


@pytest.mark.parametrize(("name", "column"), [("constants", "value"), ("limits", "value")])
def test_values_are_numbers(name: str, column: str) -> None:
    for entry in table(name):
        assert float(entry[column]) >= 0.0
        assert entry["note"], f"{entry['key']} is not explained"


def test_density_lies_in_its_range() -> None:
    least, most = (float(row("limits", key)["value"]) for key in ("density-least", "density-most"))
    for entry in table("materials"):
        low, usual, high = (
            float(entry[column]) for column in ("density_low", "density", "density_high")
        )
        assert least < low < usual < high < most, entry["key"]
        assert entry["unit"] == "kg/m³"
        assert entry["locator"] or entry["note"] or entry["source"] == "memory", entry["key"]


def test_worked_out_densities() -> None:
    # Half glass (2540) and half epoxy (1150) by mass: the mixture rule.
    assert float(row("materials", "GRP epoxy")["density"]) == pytest.approx(
        1 / (0.5 / 2540 + 0.5 / 1150), abs=0.5
    )
    # Random close packing fills 0.60 to 0.64 of the space.
    lead, shot = (float(row("materials", key)["density"]) for key in ("lead", "lead shot"))
    assert 0.595 < shot / lead < 0.64
    # 3.76e-1 kg in 155 × 44 × 24 mm.
    assert float(row("materials", "LiPo battery")["density"]) == pytest.approx(
        0.376 / (0.155 * 0.044 * 0.024), rel=0.005
    )
    # 45 to 48 g in a cylinder of 18.4 by 65.1 mm.
    assert float(row("materials", "Li-ion cell")["density"]) == pytest.approx(
        0.0465 / (0.7854 * 0.0184**2 * 0.0651), rel=0.01
    )


def test_constants_against_a_general_library(registry: pint.UnitRegistry) -> None:
    for key, name in {
        "gravity": "standard_gravity",
        "atmosphere": "standard_atmosphere",
        "gas-constant": "molar_gas_constant",
    }.items():
        published = registry.Quantity(1, name).to_base_units()
        ours = registry.Quantity(
            float(row("constants", key)["value"]), row("constants", key)["unit"]
        )
        assert ours.to_base_units().magnitude == pytest.approx(published.magnitude, rel=1e-9)
        assert ours.dimensionality == published.dimensionality
    assert registry.Quantity(0.0, "degC").to("K").magnitude == float(
        row("constants", "zero-celsius")["value"]
    )


def test_surface_tension_pulls_as_common_practice_has_it() -> None:
    # 7.4 g a metre of wetted line: the clean-water value over free fall (common practice).
    pull = float(row("constants", "surface-tension")["value"]) / 9.80665
    assert pull * 1000 == pytest.approx(7.4, abs=0.05)


def test_surface_tension_by_the_formula_cited() -> None:
    # IAPWS R1-76(2014): σ = 235.8 mN/m τ^1.256 (1 - 0.625 τ), τ = 1 - T/647.096 K; its table has
    # 72.74 at 20 °C, as the NBS/NRC steam tables of 1984 have.
    tau = 1 - 293.15 / 647.096
    answer = float(row("constants", "surface-tension")["value"]) * 1e3
    assert answer == pytest.approx(235.8 * tau**1.256 * (1 - 0.625 * tau), abs=5e-3)
    assert answer == 72.74


def test_a_missing_row_is_said() -> None:
    with pytest.raises(DataError, match=r"materials\.csv: no row 'gold'\. Known: GRP, "):
        row("materials", "gold")
    with pytest.raises(DataError, match="there is no table 'gold'"):
        table("gold")


# What the code says of itself.


def test_sources_cited_are_known() -> None:
    wrong = [
        f"{place(file)}: {', '.join(sorted(cited(text) - SOURCES))}"
        for file in FILES
        for _, text in docstrings(file)
        if not cited(text) <= SOURCES
    ]
    assert wrong == []


def test_citations_are_read() -> None:
    assert cited("What.\n\nSource:\n    [teos-10] [no-such] table 1.\n\nLater [x-1].") == {
        "teos-10",
        "no-such",
    }


def numeric_arguments(function: ast.FunctionDef) -> list[str]:
    """Return the names of the arguments that are numbers or arrays of numbers."""
    arguments = [*function.args.posonlyargs, *function.args.args, *function.args.kwonlyargs]
    return [
        argument.arg
        for argument in arguments
        if argument.annotation
        and re.search(r"\b(float|Floats|NDArray)\b", ast.unparse(argument.annotation))
    ]


def without_unit(function: ast.FunctionDef, text: str) -> list[str]:
    """Return the numeric arguments whose line under Args has no unit in square brackets."""
    answer = dict(re.findall(r"^ {4}(\w+): (.*(?:\n {6,}.*)*)", text, flags=re.MULTILINE))
    return [
        name
        for name in numeric_arguments(function)
        if not re.search(r"\[.+\]", answer.get(name, ""))
    ]


def test_arguments_that_are_told_have_units() -> None:
    wrong = [
        f"{place(file)}: {node.name}, line {node.lineno}: {name}"
        for file in FILES
        for node, text in docstrings(file)
        if isinstance(node, ast.FunctionDef) and "Args:" in text
        for name in without_unit(node, text)
    ]
    assert wrong == []


def records(file: Path) -> Iterator[ast.ClassDef]:
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.ClassDef) and any(
            "dataclass" in ast.unparse(decorator) for decorator in node.decorator_list
        ):
            yield node


def test_numbers_in_records_have_units() -> None:
    wrong = [
        f"{place(file)}: {record.name}.{ast.unparse(field.target)}, line {field.lineno}"
        for file in FILES
        for lines in (file.read_text("utf-8").splitlines(),)
        for record in records(file)
        for field in record.body
        if isinstance(field, ast.AnnAssign)
        and re.search(r"\b(float|Floats|NDArray)\b", ast.unparse(field.annotation))
        and not re.search(r"#.*\[.+\]", lines[(field.end_lineno or field.lineno) - 1])
    ]
    assert wrong == []


LONG = 3  # digits from which a number is no round one


def digits(number: str) -> int:
    """Return how many digits of a number mean something: 0.0254 has three, 1000 has one."""
    return len(re.sub(r"[eE].*", "", number).replace(".", "").replace("_", "").strip("0"))


KEPT = {  # what stands in a table, with its digits
    entry[column]: f"{name}.csv: {entry[first_column(table(name))]}"
    for name, column in (("constants", "value"), ("units", "factor"))
    for entry in table(name)
    if digits(entry[column]) >= LONG
}


@cache
def kept_to(count: int) -> dict[str, str]:
    """Return what stands in a table, rounded to so many digits, and where."""
    return {f"{float(value):.{count - 1}e}": where for value, where in KEPT.items()}


def typed_again(text: str, program: ast.Module) -> Iterator[str]:
    """Yield the numbers in a program that a table has, whole or rounded to three digits or more."""
    lines = text.encode().splitlines()  # places in a line are counted in bytes
    for node in ast.walk(program):
        if not isinstance(node, ast.Constant) or not isinstance(node.value, float):
            continue
        count = digits(lines[node.lineno - 1][node.col_offset : node.end_col_offset].decode())
        where = kept_to(count).get(f"{node.value:.{count - 1}e}") if count >= LONG else None
        if where:
            yield f"line {node.lineno}: {node.value} stands in {where}"


def test_what_a_table_has_is_typed_nowhere_else() -> None:
    wrong = [
        f"{place(file)}, {found}"
        for file in FILES
        for found in typed_again(file.read_text("utf-8"), tree(file))
    ]
    assert wrong == []


@pytest.mark.parametrize(
    ("text", "count"),
    [("g = 9.80665", 1), ("g = 9.81", 1), ("inch = 0.0254", 1), ("a = 0.025", 0), ("n = 999", 0)],
)
def test_a_number_typed_again_is_found(text: str, count: int) -> None:
    assert len(list(typed_again(text, ast.parse(text)))) == count


SHOWS = {"page", "pictures", "pond", "text", "cli", "sheets", "notebook"}  # results, as they look
READS = {"boatfile", "weightlists"}  # what others wrote
ANY_KIND = re.compile(r"\b(as|by|its|the|of|or|SI|unit|value)\b|,")  # of a figure of any kind


def figures_kept(file: Path) -> Iterator[tuple[str, str, str]]:
    """Yield record, field and unit of each figure that a frozen record for others has."""
    lines = file.read_text("utf-8").splitlines()
    for node in records_frozen(file):
        for one in node.body:
            if not isinstance(one, ast.AnnAssign):
                continue
            unit = re.search(
                r"#.*\[([^\[\]]+)\][^\[\]]*$", lines[(one.end_lineno or one.lineno) - 1]
            )
            is_figure = re.search(r"\b(float|Floats|NDArray)\b", ast.unparse(one.annotation))
            if is_figure and unit and not ANY_KIND.search(unit[1]):
                yield node.name, ast.unparse(one.target), unit[1]


def records_frozen(file: Path) -> Iterator[ast.ClassDef]:
    for node in ast.walk(tree(file)):
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            made = " ".join(ast.unparse(decorator) for decorator in node.decorator_list)
            if "frozen=True" in made or made == "record":
                yield node


RESULTS = [one for one in FILES if one.relative_to(SOURCE).parts[0] not in SHOWS | READS]
SYMBOLS = {entry["name"]: entry for entry in table("nomenclature")}


def test_figures_of_results_are_in_the_list_of_symbols() -> None:
    """By the field's name, or by record and field where one name has several units."""
    wrong = [
        f"{place(file)}: {record}.{name} [{unit}]"
        for file in RESULTS
        for record, name, unit in figures_kept(file)
        if unit not in {SYMBOLS.get(key, {}).get("unit") for key in (f"{record}.{name}", name)}
    ]
    assert wrong == []


def test_every_line_of_the_list_says_what_it_is() -> None:
    for entry in SYMBOLS.values():
        assert entry["meaning"], entry["name"]
    marks = [entry["symbol"] for entry in SYMBOLS.values() if entry["symbol"]]
    assert sorted(set(marks)) == sorted(marks), "a symbol that stands for two things"
    kept = {(record, name) for file in RESULTS for record, name, _ in figures_kept(file)}
    of_one = {tuple(name.split(".")) for name in SYMBOLS if "." in name}
    assert of_one <= kept, "of a record that is no more"


def test_a_water_is_in_the_list_of_symbols() -> None:
    assert is_dataclass(Water)
    assert {field.name for field in fields(Water)} <= SYMBOLS.keys()

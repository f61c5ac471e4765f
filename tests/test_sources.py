"""No row says more of its origin than the record of what was seen, and every source is whole.

The records in tests/data/records were drawn up apart from the tables: value by value, what was read
in a standard, a handbook, a maker's list or on a web page, what was worked out, and what is from
memory. A row may say less than its record, never more.
"""

import csv
import re
from collections import Counter
from pathlib import Path

import pytest
from tests.facts import FILES, SOURCE, TABLES, cited, docstrings

from trimdive.assessment import Assessment
from trimdive.data import Row, cited_by, row, standing, table
from trimdive.findings.finding import limit_of

RECORDS = Path(__file__).parent / "data" / "records"
DOCS = sorted((SOURCE.parents[1] / "docs").rglob("*.md"))
MODEST = {"common practice, no source", "from memory"}  # claim nothing that could be looked up
STANDINGS = {one["kind"]: one["standing"] for one in table("standings")}
CLAIMS = {*STANDINGS.values(), "lists that agree"}
NEEDS = {  # the kind of source that a claim may cite
    "published": {"published"},
    "a maker's list": {"maker's list"},
    "a web page": {"web page"},
    "worked out": {"computed", "published"},
    "common practice, no source": {"practice"},
    "from memory": {"memory", "published"},
    "lists that agree": {"published"},
}


def record(name: str) -> list[Row]:
    lines = (RECORDS / f"{name}.csv").read_text("utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if line[0] != "#"))


def sourced() -> list[tuple[str, Row]]:
    return [(name, entry) for name in TABLES if name != "sources" for entry in table(name)]


def key_of(entry: Row) -> str:
    return entry[next(iter(entry))]


def test_every_row_claims_what_its_source_can_bear() -> None:
    for name, entry in sourced():
        claim = standing(entry)
        assert claim in CLAIMS, (name, entry)
        assert row("sources", entry["source"])["kind"] in NEEDS[claim], (name, entry)


@pytest.mark.parametrize(
    ("name", "column", "claimed"),
    [("materials", "density", "status"), ("elastic", "modulus", "status"),
     ("strengths", "limit", "status"), ("strengths", "held", "held_status")],
)  # fmt: skip
def test_materials_say_no_more_than_their_record(name: str, column: str, claimed: str) -> None:
    seen = {(one["material"], one["column"]): one for one in record("materials")}
    for entry in table(name):
        claim, about = entry[claimed] or "from memory", (key_of(entry), column)
        if claim not in MODEST:
            assert about in seen, about
            assert claim == seen[about]["seen"], about
            assert float(entry[column]) == float(seen[about]["value"]), about


def test_what_an_audit_found_is_mended() -> None:
    """Each of these once called found what the record has from memory or as another value."""
    for name, key in (
        ("materials", "ABS"), ("materials", "epoxy"), ("materials", "PVC-U"),
        ("elastic", "polycarbonate"), ("elastic", "acetal"), ("elastic", "styrene"),
        ("elastic", "PVC-U"), ("materials", "nitrile rubber"),
    ):  # fmt: skip
        assert standing(row(name, key)) == "from memory", (name, key)
    assert row("fuses", "60 A")["source"] == row("fuses", "80 A")["source"] == "iso-8820-4"
    assert row("fuses", "40 A")["source"] == "iso-8820-3"
    assert row("sources", "cgpm-1901")["title"].startswith("Declaration")


def test_tubes_say_no_more_than_their_record() -> None:
    seen = [
        (float(one["outside_mm"]), float(one["wall_mm"]), one["seen"]) for one in record("tubes")
    ]
    for entry in table("tube_stock"):
        claim = standing(entry)
        if claim == "from memory":
            continue
        inch = 25.4 if entry["unit"] == "in" else 1.0
        outside, wall = float(entry["outside"]) * inch, float(entry["wall"]) * inch
        fits = [one for one in seen if abs(one[0] - outside) < 6e-3 and abs(one[1] - wall) < 6e-3]
        assert claim in {one[2] for one in fits}, entry
    brass = {standing(one) for one in table("tube_stock") if one["material"] == "brass"}
    assert brass == {"from memory", "a web page"}  # one list, not several that agree


def test_rings_say_no_more_than_their_record() -> None:
    seen = {one["number"]: one for one in record("rings")}
    for entry in table("o_rings"):
        if standing(entry) == "from memory":
            assert entry["key"] not in seen
            continue
        one = seen[entry["key"]]
        assert float(entry["inside"]) == float(one["inside"])
        assert float(entry["section"]) == float(one["section"])
        assert re.findall(r"Agrees with (\d) ", entry["note"]) == [one["lists"]]


def test_other_rows_say_no_more_than_their_record() -> None:
    seen = {(one["table"], one["key"]): one for one in record("others")}
    apart = {"materials", "elastic", "strengths", "tube_stock", "o_rings"}
    for name, entry in sourced():
        claim = standing(entry)
        if name in apart or claim in MODEST:
            continue
        one = seen.get((name, key_of(entry))) or seen.get((name, "*"))
        assert one, (name, entry)
        assert claim == one["seen"], (name, entry)
        if one["column"]:
            assert float(entry[one["column"]]) == float(one["value"]), (name, entry)


def test_records_are_used_and_stand_once() -> None:
    for name in ("materials", "rings", "others"):
        keys = Counter(tuple(list(one.values())[:2]) for one in record(name))
        assert max(keys.values()) == 1, name
    for one in record("others"):
        assert one["key"] == "*" or row(one["table"], one["key"])
    for one in record("materials"):
        assert row("materials", one["material"])


def test_sources_are_whole() -> None:
    """A publication has who wrote or issued it, and its edition, or that it was not noted."""
    for one in table("sources"):
        assert one["kind"] in STANDINGS, one
        is_publication = one["kind"] == "published"
        assert bool(one["author"]) == is_publication or one["kind"] == "computed", one
        assert bool(one["edition"]) == is_publication or one["kind"] == "computed", one


def test_every_source_is_cited_somewhere() -> None:
    used = {entry["source"] for _, entry in sourced()}
    for file in FILES:
        used |= {key for _, text in docstrings(file) for key in cited(text)}
        used |= set(re.findall(r'"([a-z0-9-]+)"', file.read_text("utf-8")))  # of a figure's why
    for doc in DOCS:
        used |= set(re.findall(r"\[([a-z][a-z0-9-]+)\]", doc.read_text("utf-8")))
    assert {one["key"] for one in table("sources")} <= used


def test_what_is_from_memory_is_said_where_a_limit_is_shown(bittern: Assessment) -> None:
    boat = bittern.boat
    assert limit_of("lift-one", boat).source.endswith("2021 (from memory)")
    assert cited_by(row("limits", "density-least")) == "From memory of handbook values"
    assert cited_by(row("limits", "gm-least")) == "Common practice, no source"

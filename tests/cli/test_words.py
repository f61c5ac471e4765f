"""Words and units at the terminal: the conventions of docs/conventions.md, in words."""

import io
from math import radians
from pathlib import Path

import pytest
from rich.console import Console

from trimdive.boatfile import Boat, Units, parse
from trimdive.cli.layout import Terminal, line, table
from trimdive.cli.sheets import file_name
from trimdive.errors import TrimdiveError
from trimdive.text import words
from trimdive.text.water_asked import water_of
from trimdive.water import waters

METRIC = Boat(name="A", units=Units(length="mm", mass="g"))
INCHES = Boat(name="B", units=Units(length="in", mass="oz"))


@pytest.mark.parametrize(
    ("angle", "trim", "heel"),
    [  # positive is bow down, and starboard side down: docs/conventions.md
        (1.24, "1.2° bow down", "1.2° to starboard"),
        (-0.3, "0.3° stern down", "0.3° to port"),
        (0.04, "level", "upright"),
        (-0.04, "level", "upright"),
        (0.0, "level", "upright"),
    ],
)
def test_angles_are_told_in_words(angle: float, trim: str, heel: str) -> None:
    assert words.trim(METRIC, radians(angle)) == trim
    assert words.heel(METRIC, radians(angle)) == heel


def test_heavy_and_light() -> None:
    assert words.weight(METRIC, 0.288) == "288 g heavy"
    assert words.weight(METRIC, -0.028) == "28 g light"


def test_moments_are_told_to_three_figures_in_the_boats_units() -> None:
    assert words.moment(METRIC, 0.171166) == "171000 g mm"
    assert words.moment(METRIC, 1.234e-6) == "1.23 g mm"
    assert words.moment(METRIC, 0.0) == "0 g mm"
    # An ounce is 28.349523125 g and an inch 25.4 mm, by definition: 1 oz in = 720.08 g mm.
    assert words.moment(INCHES, 0.72008e-3) == "1.00 oz in"


def test_areas_go_with_lengths() -> None:
    assert words.area(METRIC, 0.0239) == "239 cm²"
    assert words.area(INCHES, 0.00064516) == "1.00 in²"  # an inch is 25.4 mm, by definition


def test_small_masses_keep_a_figure() -> None:
    assert words.mass(METRIC, 0.0004) == "0.4 g"
    assert words.mass(METRIC, 0.0854) == "85 g"


def test_places_are_told_from_the_end_they_were_measured_from() -> None:
    bow = parse(
        'format = 1\nname = "C"\nlength = "1000 mm"\nmeasured_from = "bow"\n'
        '[units]\nlength = "mm"\n'
    )
    assert words.place(bow, 0.95) == "50.0 mm"
    assert words.place(METRIC, 0.95) == "950 mm"


def test_shares() -> None:
    assert words.share(0.893) == "89 %"
    assert words.share(0.893, 1) == "89.3 %"
    assert (words.things(1), words.things(3)) == ("1 thing to put right", "3 things to put right")


def test_every_named_water_can_be_typed() -> None:
    for name, meant in waters().items():
        assert water_of(name.upper()) == meant


@pytest.mark.parametrize(
    ("text", "kind", "celsius", "salt"),
    [
        ("fresh 6 °C", "fresh", 6.0, 0.0),
        ("fresh 50 °F", "fresh", 10.0, 0.0),
        ("pool 28 °C 3 g/kg", "pool", 28.0, 3.0),
        ("pool 28,5 °C, 3,2 g/kg", "pool", 28.5, 3.2),
        ("salt pool 20 °C", "pool", 20.0, 3.2),
        ("sea 12 °C", "sea", 12.0, 35.16504),
        ("  fresh  ", "fresh", 15.0, 0.0),
    ],
)
def test_waters_as_typed(text: str, kind: str, celsius: float, salt: float) -> None:
    found = water_of(text)
    assert (found.kind, found.salt) == (kind, salt)
    assert found.celsius == pytest.approx(celsius, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("vodka", r"--water: 'vodka' is not a water\. Known: fresh, "),
        ("pol", r"Did you mean 'pool'\?"),
        ("", r"--water: '' is not a water"),
        ("sea 5", r"'5' after 'sea' is not clear"),
        ("fresh 200 °C", r"--water: .*200"),
        ("pool 28 °C 3 kg", r"--water: '3 kg' is a mass, not a temperature"),
        ("seaside", r"'seaside' is not a water"),
    ],
)
def test_waters_that_are_none(text: str, message: str) -> None:
    with pytest.raises(TrimdiveError, match=message):
        water_of(text)


def test_names_of_drawings_are_names_of_files() -> None:
    assert file_name("Bittern as bought") == "bittern-as-bought"
    assert file_name("../../etc/x") == "etc-x"
    assert file_name("60 %") == "60"
    assert Path(file_name("…")).name == "boat"


def test_names_keep_their_brackets() -> None:
    # A name such as "[bold]" is a name: no marks for the terminal may be read in it.
    page = io.StringIO()
    terminal = Console(file=page, width=80, markup=False)
    terminal.print(table(["", "x"], [["[bold]pump[/bold] :fish:", "1"]]))
    terminal.print(line("[red]valve"))
    assert "[bold]pump[/bold] :fish:" in page.getvalue()
    assert "[red]valve" in page.getvalue()


def test_a_figure_and_its_unit_stand_on_one_line():
    """However narrow the terminal: "17" and "g" are not parted, nor "100" and "%"."""
    shown = io.StringIO()
    narrow = Terminal(width=22, highlight=False, file=shown)
    narrow.print(line("Her largest trim is at 100 % of the 1356 cm³; 17 g heavy."))
    lines = [one.rstrip() for one in shown.getvalue().splitlines()]
    assert lines == ["Her largest trim is at", "100 % of the 1356 cm³;", "17 g heavy."]


@pytest.mark.parametrize("width", [80, 81, 82, 90])
def test_no_letter_is_lost_at_the_end_of_a_line(width: int) -> None:
    """However wide the terminal: words go on in the next line of their cell."""
    head = ["how full, down", "trim", "heel", "GM", "GM lengthways", "still out", "what happens"]
    rows = [
        [
            "20.0 %",
            "0.6° bow",
            "19.6° port",
            "1.5 mm",
            "380 mm",
            "2536 cm³",
            "joint lip goes under",
        ],
        [
            "100.0 %",
            "12.4° bow",
            "upright",
            "9.5 mm",
            "59 mm",
            "367 cm³",
            "fore and after tank full",
        ],
    ]
    shown = io.StringIO()
    terminal = Terminal(width=width, highlight=False, file=shown)
    terminal.print(table(head, rows, right=range(6), gap=1))
    told = sorted(shown.getvalue().split())
    assert told == sorted(" ".join(cell for row in (head, *rows) for cell in row).split())

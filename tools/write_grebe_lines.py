"""Write boats/grebe/lines.csv: the offsets of *Grebe*, an invented survey and training boat.

The as-bought copy has one figure slipped: 5.98 for 59.8 at station 650, height 60 mm.
"""

from pathlib import Path

HEAD = "x mm,keel,5,10,20,40,60,80,100,115,deck,deck half"
OFFSETS = """
0,95,,,,,,,4.3,4.3,118,3
70,90,,,,,,,20.8,17.8,119,12
140,76,,,,,,21.7,33.7,28.0,120,19
190,48,,,,,31.3,41.5,40.6,33.8,121,23
260,14,,,22.0,40.4,47.3,49.0,46.1,38.9,122,27
390,3,15.1,26.9,39.3,51.7,56.5,56.6,52.8,45.8,124,32
520,0,24.3,33.2,44.1,55.6,59.8,59.3,55.4,48.6,125,34
650,0,24.5,33.4,44.4,55.8,59.8,59.3,55.6,49.4,126,35
780,0,24.1,32.8,43.7,54.9,58.8,58.4,54.9,49.3,127,35
910,0,22.2,30.2,40.2,50.8,54.7,54.6,51.7,47.0,129,33
1040,2,14.4,22.5,31.7,41.4,45.4,45.9,44.4,41.8,137,29
1170,9,,5.4,16.5,24.9,28.7,30.0,29.7,28.6,142,21
1235,20,,,0,12.7,16.2,17.7,18.0,17.6,145,13
1300,52,,,,,2.1,3.5,4.0,4.0,148,3
"""
RIGHT = "650,0,24.5,33.4,44.4,55.8,59.8,"
SLIPPED = "650,0,24.5,33.4,44.4,55.8,5.98,"


def lines() -> str:
    """Return the table of offsets as text."""
    note = f"# Written by tools/{Path(__file__).name}. Half-breadths at heights; see docs/lines.md."
    return f"{note}\n{HEAD}{OFFSETS}"


def main() -> None:
    """Write the table for the boat and for its as-bought copy."""
    for boat, text in (("grebe", lines()), ("grebe-as-bought", lines().replace(RIGHT, SLIPPED))):
        folder = Path(__file__).parents[1] / "boats" / boat
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "lines.csv").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()

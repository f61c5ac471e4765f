"""Write boats/bittern/lines.csv: the lines of *Bittern*, an invented salvage boat."""

from pathlib import Path

HEAD = "x mm,keel,widest,half breadth,deck,deck half,power"
POWER = 2.2
SECTIONS = (
    (0, 128, 156, 7, 190, 5),
    (115, 92, 146, 34, 192, 20),
    (230, 60, 132, 58, 195, 34),
    (460, 18, 114, 90, 200, 48),
    (690, 3, 106, 105, 203, 57),
    (920, 0, 104, 111, 205, 61),
    (1150, 0, 104, 112, 206, 62),
    (1380, 0, 104, 112, 208, 62),
    (1610, 0, 105, 108, 211, 58),
    (1840, 1, 108, 96, 216, 50),
    (2070, 8, 118, 68, 224, 36),
    (2185, 24, 130, 42, 230, 24),
    (2300, 66, 150, 9, 236, 6),
)


def lines() -> str:
    """Return the table of lines as text."""
    rows = [",".join(map(str, (*section, POWER))) for section in SECTIONS]
    note = f"# Written by tools/{Path(__file__).name}. Section figures; see docs/lines.md."
    return "\n".join([note, HEAD, *rows, ""])


def main() -> None:
    """Write the table for the boat and for its as-bought copy."""
    for boat in ("bittern", "bittern-as-bought"):
        folder = Path(__file__).parents[1] / "boats" / boat
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "lines.csv").write_text(lines(), encoding="utf-8")


if __name__ == "__main__":
    main()

"""Writes the pictures in docs/pictures: run ``python tools/write_pictures.py``.

The drawings have no ground of their own; here they get white paper, so that they can be read
wherever they are shown.
"""

from pathlib import Path

from trimdive.assessment import assess
from trimdive.pictures.drawings import boat_drawing, section_drawing

ROOT = Path(__file__).parents[1]
PICTURES = ROOT / "docs" / "pictures"
PAPER = '<rect width="100%" height="100%" fill="#fff"/>'


def on_paper(svg: str) -> str:
    """Return a drawing with white paper under it."""
    head, rest = svg.split("<defs>", 1)
    return f"{head}{PAPER}<defs>{rest}\n"


def main() -> None:
    """Draw the demo boats."""
    bittern = assess(ROOT / "boats" / "bittern" / "boat.toml")
    bought = assess(ROOT / "boats" / "bittern-as-bought" / "boat.toml")
    grebe = assess(ROOT / "boats" / "grebe" / "boat.toml")
    plover = assess(ROOT / "boats" / "plover" / "boat.toml")
    pictures = {
        "bittern": boat_drawing(bittern),
        "bittern-as-bought-full": boat_drawing(bought, bought.full),
        "bittern-section": section_drawing(bittern, 0.94),
        "grebe": boat_drawing(grebe),
        "plover": boat_drawing(plover),
    }
    PICTURES.mkdir(parents=True, exist_ok=True)
    for name, svg in pictures.items():
        (PICTURES / f"{name}.svg").write_text(on_paper(svg), encoding="utf-8")


if __name__ == "__main__":
    main()

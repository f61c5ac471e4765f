"""Files of the bench: each cylinder opened, its caps, its grooves, as SVG."""

from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.sheets import file_name
from trimdive.pictures.drawings.cap import cap_drawing
from trimdive.pictures.drawings.cylinder import cylinder_drawing
from trimdive.pictures.drawings.groove import groove_drawing

if TYPE_CHECKING:
    from trimdive.assessment import Assessment


def drawn(her: "Assessment", only: str, folder: Path) -> list[Path]:
    """Write the drawings of her cylinders, or of one, and return their files.

    Raises:
        OSError: One cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    found: list[Path] = []
    for one in her.bench.cylinders:
        if only not in ("", one.name):
            continue
        pictures = {one.name: cylinder_drawing(her, one)}
        for end in one.caps:
            name = f"{one.name} {end.name}"
            pictures[name] = cap_drawing(her, one, end)
            for k, ring in enumerate(end.rings, 1):
                pictures[f"{name} groove {k}"] = groove_drawing(her.boat, ring.fitted, end.name)
        for name, picture in pictures.items():
            file = folder / f"{file_name(her.boat.name)}-{file_name(name)}.svg"
            file.write_text(picture, "utf-8")
            found.append(file)
    return found

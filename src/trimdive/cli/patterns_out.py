"""``sheets``: the patterns that were asked for, worked out and written."""

from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.cli.writing import FOLDER, written

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.patterns.sections import Pattern
    from trimdive.text.patterns_asked import Asked


def patterns_written(
    her: "Assessment", asked: "Asked", out: Path
) -> "tuple[list[Path], list[Pattern]]":
    """Return the files written, and the patterns on them: one PDF, one DXF, an SVG a pattern.

    Raises:
        GeometryError: There is no room for a pattern.
        BoatFileError: They cannot be written there.
    """
    from trimdive.cli.sheets import file_name
    from trimdive.patterns.sections import frame, shell
    from trimdive.sheets.fullsize import Stretch, dxf, pdf, shape_of, svg
    from trimdive.text.pattern_words import MEASURE, title_of
    from trimdive.text.say import Say

    boat, say, found = her.boat, Say(her.boat), list["Pattern"]()
    for x in asked.stations:
        if "shell" in asked.kinds:
            found += shell(boat, her.hull, x, asked.gap)
        if "frame" in asked.kinds:
            found.append(
                frame(boat, her.hull, x, thick=asked.thick, gap=asked.glue, clear=asked.clear,
                      notch=asked.notch)
            )  # fmt: skip
    shapes = [shape_of(say, one) for one in found]
    stem = file_name(boat.name)
    made = {
        f"{stem}-patterns.pdf": pdf(
            shapes,
            title_of(say),
            MEASURE,
            asked.paper,
            Stretch(along=asked.printed[0], up=asked.printed[1]),
        ),
        f"{stem}-patterns.dxf": dxf(shapes),
        **{f"{file_name(one.title)}.svg": svg(one) for one in shapes},
    }
    files = [written(out / name, contents, FOLDER) for name, contents in made.items()]
    return files, found

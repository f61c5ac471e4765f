"""The placing card on one sheet: the drawing with its list, not to scale."""

import json
from importlib.resources import as_file, files

FOOTER = (
    "Not to scale. Check each place with a tape before gluing, and let her go in the tub after."
)


def placing_sheet(drawn: str, name: str) -> bytes:
    """Return the placing card as a tagged PDF.

    Args:
        drawn: The card as SVG.
        name: Of the boat.
    """
    import typst  # slow to load, and only used here

    told = {
        "title": f"{name}: what goes where",
        "alt": f"{name} from the side and from above, each piece with its number, and the list.",
        "footer": FOOTER,
    }
    with as_file(files(__name__.rpartition(".")[0])) as folder:
        return typst.compile(
            str(folder / "placing.typ"),
            root=str(folder),
            font_paths=[str(folder / "fonts")],
            ignore_system_fonts=True,
            sys_inputs={"data": json.dumps(told), "drawn": drawn},
            pdf_standards=["ua-1"],
        )

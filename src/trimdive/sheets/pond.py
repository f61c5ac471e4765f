"""The card for the pond on one sheet: all words come as data, this file only has them set."""

import json
from collections.abc import Mapping
from importlib.resources import as_file, files


def pond_sheet(data: Mapping[str, object]) -> bytes:
    """Return the card as a tagged PDF.

    Args:
        data: Its words, as ``pond.paper`` gives them.
    """
    import typst  # slow to load, and only used here

    with as_file(files(__name__.rpartition(".")[0])) as folder:
        return typst.compile(
            str(folder / "pond.typ"),
            root=str(folder),
            font_paths=[str(folder / "fonts")],
            ignore_system_fonts=True,
            sys_inputs={"data": json.dumps(data)},
            pdf_standards=["ua-1"],
        )

"""What lies in ``static`` as it is sent: without what stands there for who reads it."""

import os
import re
from pathlib import Path

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

COMMENT = re.compile(r"^[ \t]*(?:/\*.*?\*/|//[^\n]*)\n", re.MULTILINE | re.DOTALL)
BESIDE = re.compile(r"(?<=[;,{]) // [^\n\"'`]*$", re.MULTILINE)  # said at the end of a line
EMPTY = re.compile(r"\n\s*\n")
MARGIN = re.compile(r"^[ \t]+", re.MULTILINE)
ROOM = re.compile(r"\s*([{};,])\s*|(?<=:) ")
KINDS = {".js": "text/javascript", ".css": "text/css"}  # of what is written here


def bare(script: str) -> str:
    r"""Return a script or a style sheet without margins, comments and empty lines.

    >>> bare("// Adds.\n/**\n * @param {number} a\n */\nconst f = (a) => a + 1; // one more\n")
    'const f = (a) => a + 1;\n'
    """
    return EMPTY.sub("\n", MARGIN.sub("", BESIDE.sub("", COMMENT.sub("", script))))


def tight(sheet: str) -> str:
    """Return a style sheet without what stands there for who reads it.

    >>> tight(".a, .b { color: red; }")
    '.a,.b{color:red;}'
    """
    return ROOM.sub(r"\1", bare(sheet))


class Static(StaticFiles):
    """Files of the page; types and reasons in its own scripts are for no browser."""

    def file_response(
        self,
        full_path: "str | os.PathLike[str]",
        stat_result: os.stat_result,
        scope: Scope,
        status_code: int = 200,
    ) -> Response:
        """Return a file; ``not modified`` where the browser has it."""
        whole = super().file_response(full_path, stat_result, scope, status_code)
        file = Path(full_path)
        if whole.status_code != status_code or file.suffix not in KINDS or ".min" in file.suffixes:
            return whole
        known = {name: whole.headers[name] for name in ("etag", "last-modified")}
        text = (tight if file.suffix == ".css" else bare)(file.read_text("utf-8"))
        return Response(text, status_code, known, KINDS[file.suffix])

"""What lies in ``static`` as it is sent: scripts without what is said for who reads them."""

import os
import re
from pathlib import Path

from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

COMMENT = re.compile(r"^[ \t]*(?:/\*\*.*?\*/|//[^\n]*)\n", re.MULTILINE | re.DOTALL)


def bare(script: str) -> str:
    r"""Return a script without the comments that have lines of their own.

    >>> bare("// Adds.\n/**\n * @param {number} a\n */\nconst f = (a) => a + 1; // one more\n")
    'const f = (a) => a + 1; // one more\n'
    """
    return COMMENT.sub("", script)


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
        if whole.status_code != status_code or file.suffix != ".js" or ".min" in file.suffixes:
            return whole
        known = {name: whole.headers[name] for name in ("etag", "last-modified")}
        text = bare(file.read_text("utf-8"))
        return Response(text, status_code, known, "text/javascript")

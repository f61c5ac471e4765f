"""A picture: SVG that a notebook shows by itself."""

from pathlib import Path

from trimdive.records import record


@record
class Picture:
    """A drawing or a chart as SVG; it shows itself where it is the last line of a cell."""

    title: str
    svg: str

    def __repr__(self) -> str:
        """Return what it shows and how large it is."""
        return f"Picture({self.title!r}, {len(self.svg) / 1e3:.0f} kB of SVG)"

    def _repr_svg_(self) -> str:
        """Return it as a notebook shows it."""
        return self.svg

    def save(self, path: Path | str) -> Path:
        """Write it into a file, and return the file.

        Raises:
            OSError: It cannot be written.
        """
        file = Path(path)
        file.write_text(self.svg, "utf-8")
        return file

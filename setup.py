"""Packs the demo boats with the program; all else that setuptools asks is in pyproject.toml."""

import shutil
from pathlib import Path

from setuptools import setup
from setuptools.command.build_py import build_py

BOATS = Path(__file__).parent / "boats"


class WithBoats(build_py):
    """The build, with the folder of demo boats beside the program's own folders."""

    def run(self) -> None:
        """Build, then copy the boats."""
        super().run()
        if not self.editable_mode:
            there = Path(self.build_lib) / "trimdive" / "boats"
            shutil.copytree(BOATS, there, dirs_exist_ok=True)


setup(cmdclass={"build_py": WithBoats})

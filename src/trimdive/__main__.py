"""``python -m trimdive`` is the same as ``trimdive``."""

from trimdive.cli import main

if __name__ == "__main__":
    main()

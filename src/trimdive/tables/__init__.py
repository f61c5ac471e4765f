"""Tables of numpy arrays by column, as data frames are made of: SI, the unit at a key's end."""

from trimdive.tables.answers import dive_table, findings_table, part_row, parts_table
from trimdive.tables.states import FIGURES
from trimdive.tables.table import Table

__all__ = ["FIGURES", "Table", "dive_table", "findings_table", "part_row", "parts_table"]

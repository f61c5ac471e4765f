"""Sheets to print."""

from trimdive.sheets.measuring import PAPERS, measuring_sheet
from trimdive.sheets.placing import placing_sheet
from trimdive.sheets.pond import pond_sheet

__all__ = ["PAPERS", "measuring_sheet", "placing_sheet", "pond_sheet"]

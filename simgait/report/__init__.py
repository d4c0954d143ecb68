"""The record of a comparison: two pages of plain content, which pictures turn into ink."""

from simgait.report.content import Report
from simgait.report.making import report_of

__all__ = ["Report", "report_of"]

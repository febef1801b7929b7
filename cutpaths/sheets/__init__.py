"""Sheets: from pieces to drawings, one module for each use and one table of the uses."""

"""The maker's booklet: its content as plain data, one module a chapter."""

from cutpaths.sheets.booklet.booklet import Booklet, BookletDocument
from cutpaths.sheets.booklet.make import booklet_of, booklet_sheets

__all__ = ["Booklet", "BookletDocument", "booklet_of", "booklet_sheets"]

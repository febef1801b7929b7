"""Reading files back: from the bytes of a file to what it shows, compared with its document.

Standard library only, and no code shared with the writers, so that a mistake of a writer or of its
library is seen. A reader's `check(document, data)` says each difference in words; none is sameness.
"""

"""Writers: from a document to the bytes of one file format.

A writer is `render(document) -> bytes`. It touches no disk, knows no sheet, and refuses what its
format cannot hold by a `DrawingError`. The same document gives the same bytes.
"""

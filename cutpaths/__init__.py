"""Exact pieces, marks and proof of a self-bound, mitered patchwork blanket."""

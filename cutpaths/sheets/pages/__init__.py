"""True-scale pages for a printer: templates, cut shapes, practice corners, pieces in tiles."""

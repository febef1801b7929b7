"""Layouts of tops: each finds the patches that tile the seam polygon, and the seams between."""

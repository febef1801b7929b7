"""The packing list of a kit, its labels, and both as a table."""

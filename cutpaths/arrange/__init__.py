"""Which print goes where: rules for laying out prints, and the search for a layout that keeps them.

A layout is one number a cell, row by row from the head, seen from the front: the place of its
print among the prints of the rules. Distances are in cells, middle to middle, and squared where a
name says so.
"""

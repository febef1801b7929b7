"""How far a fact of the proof may be off, in one place; each constant says its unit.

Coordinates are float millimetres of up to some 10^5, so they carry rounding errors of some 1e-11
mm; what stands here is far above those and far below what any ruler, plotter or needle can show.
"""

# Two places count as one.
PLACE_MM = 1e-6
# Two angles count as equal.
ANGLE_DEGREES = 1e-6
# Two areas count as equal when a strip of this width along the outlines makes up the difference.
STRIP_MM = 1e-6
# Areas are cut and joined on a grid this fine: without one, GEOS may lose a whole part where two
# edges miss one another by 1e-15 mm.
JOIN_MM = 1e-8
# Counts and names are equal or they are not.
COUNT = 0.5
# A turn is rigid when cosine and sine make up a unit vector this well (no unit).
RIGID = 1e-9


def area_slack(perimeter: float) -> float:
    """How far an area may be off in mm², from the length in mm of the outlines round it."""
    return perimeter * STRIP_MM

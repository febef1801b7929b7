"""Marks on cloth by projector: the rig, its calibration by tape measure, and frames.

The picture's pixels run right and down from its upper left corner; a pixel's middle is at .5. The
table is in mm as seen from above with the picture upright, x right, y up, the origin under the
middle of the picture, x along the picture's middle row there.
"""

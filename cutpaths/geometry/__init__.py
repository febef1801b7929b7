"""Geometry of blankets: pure functions over float millimetres, standard library only.

Unless a module says otherwise everything lies in the front view: as the finished blanket is seen
from its front, x right, y up, rings counter-clockwise. In that view the backing lies wrong side up.
"""

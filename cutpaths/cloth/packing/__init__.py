"""Packing rectangles into a strip of cloth of one width and any length.

Plain numbers only: it knows rectangles and strips, nothing of projects, pieces or fabrics.
`free`, `guillotine` and `levels` make plans, `patterns` plans for many alike pieces, `bounds` and
`slices` say how good a plan can be at best, `judge` checks a plan and shares no code with them.
"""

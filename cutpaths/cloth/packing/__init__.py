"""Packing rectangles into a strip of cloth of one width and any length.

Plain numbers only: it knows rectangles and strips, nothing of projects, pieces or fabrics. `free`,
`guillotine` and `levels` make plans, `patterns` and `exact` plans of strips with a solver, `bounds`
and `slices` say how short a plan can be at best. `judge` checks a plan before it is shown.
"""

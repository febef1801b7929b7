"""Makes `fixtures/rigs/cases.json`: readings, and where places then lie, judged by scipy.

Run by hand. The cases test the page's script and the package alike, so neither may make them.
"""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import numpy as np
import rigs
from scipy.optimize import least_squares

from cutpaths.projector.rig import Rig

PLACES = ((0.0, 0.0), (300.0, 200.0), (-420.5, 110.25), (-250.0, -180.0), (410.0, -90.0))
FILE = Path(__file__).parent.parent / "fixtures" / "rigs" / "cases.json"


def case(name: str, rig: Rig) -> dict[str, Any]:
    """One case: the rig's readings, rounded as written, and the pixels of some places."""
    distances = [(d.first, d.second, round(float(d.mm), 3)) for d in rig.distances]
    positions = [(p.cross, round(float(p.x), 3), round(float(p.y), 3)) for p in rig.positions]
    half = math.hypot(rig.width, rig.height) / 2
    spots = np.array([((x - 960) / half, (540 - y) / half) for x, y in rig.crosses])

    def fall(numbers: np.ndarray) -> np.ndarray:
        a, b, e, g, h = numbers[:5]
        x, y = spots[:, 0], spots[:, 1]
        depth = g * x + h * y + 1
        return np.stack([(a * x + b * y) / depth, e * y / depth], axis=1) * 1000

    def rest(numbers: np.ndarray) -> np.ndarray:
        fallen = fall(numbers)
        left = [math.dist(fallen[i - 1], fallen[j - 1]) - mm for i, j, mm in distances]
        if positions:
            turn, dx, dy = numbers[5:]
            cos, sin = math.cos(turn), math.sin(turn)
            for n, x, y in positions:
                u, v = fallen[n - 1]
                left += [cos * u - sin * v + dx * 1000 - x, sin * u + cos * v + dy * 1000 - y]
        return np.array(left) / 1000

    start = [0.7, 0.0, 0.7, 0.0, 0.0, *([0.3, 0.7, 0.3] if positions else [])]
    found = least_squares(rest, start, xtol=1e-15, ftol=1e-15, gtol=1e-15, x_scale="jac")
    numbers = _polished(rest, found.x)
    places = [[list(place), _pixel(numbers, place, half)] for place in PLACES]
    return {"name": name, "distances": distances, "positions": positions, "places": places}


def _polished(rest: Any, numbers: np.ndarray) -> np.ndarray:
    """Newton's steps to the last digit; derivatives by complex-free central differences."""
    for _ in range(30):
        steps = 1e-6 * np.eye(len(numbers))
        slope = np.array([(rest(numbers + s) - rest(numbers - s)) / 2e-6 for s in steps]).T
        numbers = numbers - np.linalg.lstsq(slope, rest(numbers), rcond=None)[0]
    return numbers


def _pixel(numbers: np.ndarray, place: tuple[float, float], half: float) -> list[float]:
    """Where a place is in the picture: the linear equations of its homography, solved."""
    a, b, e, g, h = numbers[:5]
    u, v = place[0] / 1000, place[1] / 1000
    x, y = np.linalg.solve([[a - u * g, b - u * h], [-v * g, e - v * h]], [u, v])
    return [float(960 + x * half), float(540 - y * half)]


def main() -> None:
    """Writes the cases."""
    plain, noisy = rigs.rig(), []
    for seed, (name, truth) in enumerate(sorted(rigs.CAMERAS.items())):
        exact = rigs.measured(plain, truth, rigs.SIX)
        taped = rigs.measured(plain, truth, rigs.NINE, noise=1.2, seed=seed)
        mat = rigs.on_mat(taped, truth, (2, 6, 8, 11))
        noisy += [case(f"{name}, six", exact), case(f"{name}, nine", taped)]
        noisy.append(case(f"{name}, mat", mat))
    FILE.write_text(json.dumps(noisy, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()

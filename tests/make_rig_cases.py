"""Makes `fixtures/rigs/cases.json` and `mistakes.json`, with which package and page are tested.

Run by hand. Cases are readings, where places then lie and what is left of each reading, judged by
scipy; mistakes are spoiled readings, and the key and the advice that a person needs, known because
the script spoiled them. Neither the page's script nor the package makes them.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import rigs
from scipy.optimize import least_squares

from cutpaths.projector.rig import Rig
from cutpaths.values import replace

PLACES = ((0.0, 0.0), (300.0, 200.0), (-420.5, 110.25), (-250.0, -180.0), (410.0, -90.0))
FOLDER = Path(__file__).parent.parent / "fixtures" / "rigs"
SMALL = ((1, 2), (2, 6), (1, 6), (2, 5), (5, 6))


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
    left = rest(numbers) * 1000
    off = [*left[: len(distances)], *np.hypot(*left[len(distances) :].reshape(-1, 2).T)]
    return {
        "name": name,
        "distances": distances,
        "positions": positions,
        "places": places,
        "off": [float(mm) for mm in off],
    }


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


def mistake(name: str, rig: Rig, key: str, hint: str, doubtful: str = "") -> dict[str, Any]:
    """One mistake: the readings, the key to name, and how the advice begins."""
    distances = [(d.first, d.second, round(float(d.mm), 3)) for d in rig.distances]
    positions = [(p.cross, round(float(p.x), 3), round(float(p.y), 3)) for p in rig.positions]
    return {
        "name": name,
        "distances": distances,
        "positions": positions,
        "key": key,
        "hint": hint,
        "doubtful": [doubtful] if doubtful else [],
    }


def mistakes() -> Iterator[dict[str, Any]]:
    """Every way in which readings cannot be used, and two in which they can."""
    plain, truth = rigs.rig(), rigs.CAMERAS["tilted"]

    def taped(pairs: Any, wrong: Any = None) -> Rig:
        return rigs.measured(plain, truth, pairs, noise=0.5, seed=3, wrong=wrong)

    for pair in ((1, 4), (4, 12), (1, 12), (4, 11)):
        key = f"distances.{pair[0]}-{pair[1]}"
        for factor in (0.9, 1.04):
            rig = taped(rigs.NINE, {pair: factor})
            yield mistake(f"{pair} times {factor}", rig, key, "Measure it again")
        for factor, unit in ((0.1, "cm"), (1 / 25.4, "in"), (10, ""), (25.4, "")):
            hint = f"Was it read in {unit}?" if unit else "Was another unit written beside it?"
            rig = taped(rigs.NINE, {pair: factor})
            yield mistake(f"{pair} {factor:.4g} times", rig, key, hint)
    every = taped(rigs.NINE, dict.fromkeys(rigs.NINE, 1 / 25.4))
    yield mistake("all in inches", every, "units", "Were the readings in cm or in?")
    one = taped(rigs.SIX, {(1, 12): 1.1})
    yield mistake("one of six", one, "distances", "Measure one distance more to find out which")
    two = taped(rigs.NINE, {(1, 12): 1.1, (4, 12): 0.93, (3, 12): 1.06})
    yield mistake("three of nine", two, "distances", "Measure again ")
    yield mistake("too few", taped(rigs.SIDES), "distances", "Measure next: 1-12, 4-9, ")
    row = taped([(i, j) for i in range(1, 5) for j in range(i + 1, 5)])
    yield mistake("on a line", row, "distances", "Measure next: 4-12, ")
    yield mistake("too near one another", taped(SMALL), "distances", "Measure next: 1-4, ")
    straight = rigs.measured(plain, rigs.CAMERAS["straight"], (*rigs.SIDES, (1, 5)))
    yield mistake("free", straight, "distances", "Measure next: ")
    mat = rigs.on_mat(plain, truth, (1, 4, 12, 9, 6, 7, 2, 11), noise=0.5, seed=5)
    spoiled = tuple(replace(p, x=p.x + 60) if p.cross == 7 else p for p in mat.positions)
    yield mistake("one on the mat", replace(mat, positions=spoiled), "positions.7", "Read it again")
    small = tuple(replace(p, x=p.x * 5 / 127, y=p.y * 5 / 127) for p in mat.positions)
    inches = replace(mat, positions=small)
    yield mistake("a mat in inches", inches, "units", "Were the readings in cm or in?")
    line = rigs.on_mat(plain, truth, (1, 2, 3, 9))
    yield mistake("a mat on a line", line, "positions", "Measure next: 1-4, ")
    yield mistake("sound", taped(rigs.NINE), "", "")
    doubtful = rigs.measured(plain, truth, rigs.NINE, wrong={(1, 12): 1 + 5 / 1300})
    yield mistake("doubtful", doubtful, "", "", "1-12")


def main() -> None:
    """Writes the cases and the mistakes."""
    plain, noisy = rigs.rig(), []
    for seed, (name, truth) in enumerate(sorted(rigs.CAMERAS.items())):
        exact = rigs.measured(plain, truth, rigs.SIX)
        taped = rigs.measured(plain, truth, rigs.NINE, noise=1.2, seed=seed)
        mat = rigs.on_mat(taped, truth, (2, 6, 8, 11))
        noisy += [case(f"{name}, six", exact), case(f"{name}, nine", taped)]
        noisy.append(case(f"{name}, mat", mat))
        alone = rigs.on_mat(plain, truth, (1, 4, 12, 9, 6, 7), noise=1.2, seed=seed)
        noisy.append(case(f"{name}, mat alone", alone))
    _write("cases.json", noisy)
    _write("mistakes.json", list(mistakes()))


def _write(name: str, found: list[dict[str, Any]]) -> None:
    (FOLDER / name).write_text(json.dumps(found, indent=1) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()

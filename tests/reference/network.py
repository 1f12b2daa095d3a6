"""Delays of one drum's microphones from readings of pairs, by weighted least squares, as SciPy works them out.

Run `python3 tests/reference/network.py`: it writes network.json beside itself; tests/sheet/network/delays.test.ts compares.
scipy.linalg.lstsq solves the whitened system (rows divided by their 90 % uncertainty); the uncertainties of the solution
come from scipy.linalg.inv of AᵀWA; residuals' own variance from the diagonal of inv(W) − A·inv(AᵀWA)·Aᵀ.
The figures are drawn with numpy's default generator, seeds 1…; the readings are stored with the solution.
"""

import json
import pathlib

import numpy
import scipy
from scipy import linalg


def case(seed, microphones, pairs, wrong):
    draw = numpy.random.default_rng(seed)
    truth = draw.uniform(-12, 12, microphones)
    every = [(i, j) for i in range(microphones) for j in range(i + 1, microphones)]
    # a chain holds all together, the rest is drawn
    chain = [(i, i + 1) for i in range(microphones - 1)]
    rest = [pair for pair in every if pair not in chain]
    draw.shuffle(rest)
    chosen = (chain + [tuple(int(x) for x in pair) for pair in rest])[:pairs]
    readings = []
    for k, (i, j) in enumerate(chosen):
        a, b = (i, j) if draw.random() < 0.5 else (j, i)
        uncertainty = float(draw.uniform(0.01, 0.15))
        delay = truth[b] - truth[a] + draw.normal() * uncertainty / 1.645
        if k == wrong:
            delay += 1.7
        readings.append({"a": a, "b": b, "delayMs": float(delay), "uncertaintyMs": uncertainty})
    reference = int(draw.integers(microphones))
    free = [i for i in range(microphones) if i != reference]
    design = numpy.zeros((len(readings), microphones))
    for row, reading in enumerate(readings):
        design[row, reading["a"]] = -1
        design[row, reading["b"]] = 1
    design = design[:, free]
    uncertainty = numpy.array([reading["uncertaintyMs"] for reading in readings])
    delays = numpy.array([reading["delayMs"] for reading in readings])
    solution, *_ = linalg.lstsq(design / uncertainty[:, None], delays / uncertainty)
    covariance = linalg.inv(design.T @ numpy.diag(uncertainty**-2) @ design)
    residual = delays - design @ solution
    own = uncertainty**2 - numpy.diag(design @ covariance @ design.T)
    test = [abs(r) / v**0.5 if v > 1e-9 * u * u else 0 for r, v, u in zip(residual, own, uncertainty)]
    at = numpy.zeros(microphones)
    at[free] = solution
    spread = numpy.zeros(microphones)
    spread[free] = numpy.sqrt(numpy.diag(covariance))
    return {
        "microphones": microphones,
        "reference": reference,
        "wrong": wrong,
        "readings": readings,
        "delayMs": at.tolist(),
        "uncertaintyMs": spread.tolist(),
        "residualMs": residual.tolist(),
        "test": [float(t) for t in test],
    }


cases = [
    case(1, 2, 1, None),
    case(2, 3, 3, None),
    case(3, 4, 5, None),
    case(4, 5, 10, 6),
    case(5, 8, 15, None),
    case(6, 10, 30, 20),
    case(7, 14, 91, None),
    case(8, 14, 91, 40),
]
out = {"scipy": scipy.__version__, "numpy": numpy.__version__, "cases": cases}
pathlib.Path(__file__).with_suffix(".json").write_text(json.dumps(out) + "\n")

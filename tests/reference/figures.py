"""Single figures that the engine and the demo kit's model lean on, as SciPy and NumPy work them out.

Run `python3 tests/reference/figures.py` (SciPy 1.17.1, NumPy 2.4.6 wrote the stored output): it writes figures.json beside itself.
None of it uses the formulas of the code: filters come from scipy.signal, distributions from scipy.stats, integrals from
scipy.integrate, and the scatter of a correlation is counted on drawn noise.
"""

import json
from pathlib import Path

import numpy
import scipy
from scipy import integrate, optimize, signal, special, stats

RATE = 48000


def butterworth():
    """Second-order sections at several corners: b, a with a[0] = 1."""
    for kind in ("lowpass", "highpass"):
        for rate, corner in ((44100, 80), (48000, 500), (48000, 4000), (96000, 10000)):
            b, a = signal.butter(2, corner, kind, fs=rate)
            yield {"kind": kind, "sampleRate": rate, "cornerHz": corner, "b": b.tolist(), "a": a.tolist()}


def unrelated_scatter():
    """Standard deviation of the correlation coefficient of unrelated noise, cut to a band, over stretches of `seconds`."""
    draw = numpy.random.default_rng(19740612)
    count = 1 << 23
    hz = numpy.fft.rfftfreq(count, 1 / RATE)
    for low, high, seconds in (
        (30, 150, 0.42),
        (40, 120, 0.1),
        (150, 500, 0.1),
        (150, 800, 0.1),
        (800, 3000, 0.1),
        (20, 20000, 0.1),
    ):
        band = (hz >= low) & (hz <= high)
        a, b = (numpy.fft.irfft(numpy.fft.rfft(draw.standard_normal(count)) * band, count) for _ in range(2))
        width = round(seconds * RATE)
        stretches = count // width
        a, b = (x[: stretches * width].reshape(stretches, width) for x in (a, b))
        r = (a * b).sum(axis=1) / numpy.sqrt((a * a).sum(axis=1) * (b * b).sum(axis=1))
        yield {"lowHz": low, "highHz": high, "seconds": seconds, "stretches": stretches, "deviation": float(r.std())}


def coherence_of_unrelated():
    """Coherence of unrelated inputs over n segments is Beta(1, n − 1): its mean, and what 1 % of it exceeds."""
    for n in (2, 4, 8, 16, 64):
        law = stats.beta(1, n - 1)
        yield {"segments": n, "mean": float(law.mean()), "exceededBy1PerCent": float(law.isf(0.01))}


def delay_bound():
    """Knapp and Carter's bound, 1 / (2T ∫ (2πf)² C/(1 − C) df), integrated; seconds."""
    for low, high, seconds, snr_db in ((100, 4000, 0.1, 10), (100, 4000, 0.1, 30), (200, 8000, 0.02, 20)):
        snr = 10 ** (snr_db / 10)
        coherence = (snr / (1 + snr)) ** 2
        area, _ = integrate.quad(lambda f: (2 * numpy.pi * f) ** 2 * coherence / (1 - coherence), low, high)
        yield {
            "lowHz": low,
            "highHz": high,
            "seconds": seconds,
            "coherence": coherence,
            "deviationSeconds": float(1 / numpy.sqrt(2 * seconds * area)),
        }


def membrane():
    """Zeros of the Bessel functions J0 … J4 below 9, rising, and the largest value of each."""
    zeros = sorted((float(z), m) for m in range(5) for z in special.jn_zeros(m, 3) if z < 9)

    def largest(m):
        # J1 … J4 have their summit between 0 and their first zero; J0 has it at 0
        found = optimize.minimize_scalar(lambda x: -special.jv(m, x), bounds=(0, special.jn_zeros(m, 1)[0]), method="bounded")
        return max(float(special.jv(m, 0)), float(-found.fun))

    return {
        "zeros": [{"m": m, "zero": zero} for zero, m in zeros],
        "largest": [largest(m) for m in range(5)],
    }


out = {
    "scipy": scipy.__version__,
    "numpy": numpy.__version__,
    "butterworth": list(butterworth()),
    "unrelatedScatter": list(unrelated_scatter()),
    "coherenceOfUnrelated": list(coherence_of_unrelated()),
    "delayBound": list(delay_bound()),
    "membrane": membrane(),
}
Path(__file__).with_suffix(".json").write_text(json.dumps(out, indent=1) + "\n")

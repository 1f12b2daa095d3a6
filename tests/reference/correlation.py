"""Correlation, cross-spectra, coherence and generalized cross-correlation, as SciPy and NumPy work them out.

Run `python3 tests/reference/correlation.py` (SciPy 1.17.1, NumPy 2.4.6 wrote the stored output): it writes
correlation.json beside itself; tests/dsp/reference.test.ts makes the same inputs (noise.ts) and compares.
Inputs are seeded noise (mulberry32), the same to the last bit in both languages; a checksum is stored.
Conventions as in src/dsp: cross-spectrum S = conj(A)·B, positive lag: B later. Rate 48 kHz.
"""

import json
import pathlib

import numpy
import scipy
from scipy import fft, signal

RATE = 48000
BANDS = [(30, 150), (150, 800), (800, 3000), (3000, 10000)]


def uint32(seed, count):
    """mulberry32, as in noise.ts."""
    mask = 0xFFFFFFFF
    out = numpy.empty(count, dtype=numpy.uint32)
    state = seed & mask
    for i in range(count):
        state = (state + 0x6D2B79F5) & mask
        t = ((state ^ (state >> 15)) * (state | 1)) & mask
        t ^= (t + (((t ^ (t >> 7)) * (t | 61)) & mask)) & mask
        out[i] = t ^ (t >> 14)
    return out


def noise(seed, count):
    """Uniform on −1…+1, white."""
    return uint32(seed, count) / 2147483648.0 - 1.0


def rounded(x, digits=12):
    if isinstance(x, dict):
        return {k: rounded(v, digits) for k, v in x.items()}
    if isinstance(x, (list, tuple, numpy.ndarray)):
        return [rounded(v, digits) for v in x]
    if isinstance(x, (float, numpy.floating)):
        return float(f"{x:.{digits}g}")
    return int(x) if isinstance(x, numpy.integer) else x


# --- generalized cross-correlation -------------------------------------------------------------------------------------

GCC_LENGTH, GCC_SIZE, GCC_LAG = 1500, 4096, 300


def gcc_pair():
    """B = A inverted, 13 samples late, 0.7 as loud, with a third of noise; neither holds anything at 0 Hz or Nyquist."""
    s = noise(11, GCC_LENGTH + 13)
    a = s[13:].copy()
    b = -0.7 * s[:GCC_LENGTH] + 0.3 * noise(12, GCC_LENGTH)
    turns = numpy.where(numpy.arange(GCC_LENGTH) % 2 == 0, 1.0, -1.0)
    for x in (a, b):
        x -= x.mean()
        x -= turns * (x * turns).mean()
    return a, b


def gcc(a, b, beta, low_hz, high_hz):
    s = numpy.conj(fft.rfft(a, GCC_SIZE)) * fft.rfft(b, GCC_SIZE)
    hz = fft.rfftfreq(GCC_SIZE, 1 / RATE)
    s[(hz < low_hz) | (hz > high_hz)] = 0
    s[0] = s[-1] = 0
    magnitude = numpy.abs(s)
    white = numpy.divide(s, magnitude**beta, out=numpy.zeros_like(s), where=magnitude > 1e-30)
    curve = fft.irfft(white, GCC_SIZE) * GCC_SIZE / (2 * numpy.abs(white).sum())
    return curve[numpy.arange(-GCC_LAG, GCC_LAG + 1) % GCC_SIZE]


def gcc_cases():
    a, b = gcc_pair()
    # plain, whole band: SciPy's own correlation in the time domain (method 'direct'), over the sum of |S|
    plain = signal.correlate(b, a, mode="full", method="direct")
    middle = GCC_LENGTH - 1
    total = 2 * numpy.abs(numpy.conj(fft.rfft(a, GCC_SIZE)) * fft.rfft(b, GCC_SIZE))[1:-1].sum() / GCC_SIZE
    cases = [
        {
            "beta": 0,
            "lowHz": 0,
            "highHz": RATE / 2,
            "how": "signal.correlate",
            "curve": (plain / total)[middle - GCC_LAG : middle + GCC_LAG + 1],
        }
    ]
    for beta in (0, 0.5, 0.8, 1):
        cases.append(
            {"beta": beta, "lowHz": 100, "highHz": 8000, "how": "scipy.fft", "curve": gcc(a, b, beta, 100, 8000)}
        )
    return {"length": GCC_LENGTH, "size": GCC_SIZE, "maxLagSamples": GCC_LAG, "cases": rounded(cases, 9)}


# --- a fractional delay ------------------------------------------------------------------------------------------------


def tones(delay, count):
    """Sixty tones, 100 … 4000 Hz, phases from noise; `delay` in samples."""
    t = numpy.arange(count) - delay
    phase = noise(21, 60) * numpy.pi
    hz = 100 * 40 ** (numpy.arange(60) / 59)
    return sum(numpy.cos(2 * numpy.pi * f * t / RATE + p) for f, p in zip(hz, phase)) / 60


def fractional_cases():
    """The delay by SciPy: both tapered (Tukey), correlated, the correlation interpolated 64 times (signal.resample)."""
    cases = []
    for delay in (0.3, 4.3, 48.3, -17.45):
        count = 4800
        w = signal.windows.tukey(count, 0.5)
        a, b = tones(0, count) * w, tones(delay, count) * w
        c = signal.correlate(b, a, mode="full", method="fft")[count - 1 - 128 : count - 1 + 128]
        fine = signal.resample(c, 64 * len(c), window="hann")
        cases.append({"delaySamples": delay, "scipySamples": numpy.argmax(fine) / 64 - 128})
    return rounded(cases)


# --- power and cross spectra of stretches ------------------------------------------------------------------------------

BEFORE, LENGTH, STRETCHES, SUM_SIZE = 240, 5040, 16, 8192
LAGS = [-40, -7, 0, 1, 5, 64]
LAG_BANDS = [(30, 10000), *BANDS, *(((1000 / 2**0.5) * 2.0 ** (k - 5), (1000 / 2**0.5) * 2.0 ** (k - 4)) for k in (1, 2, 3, 4))]
GRID = [0, 20, 55, 90, 120, 150, 180, 200, 220, 240]


def stretch_window():
    """3 ms of raised cosine in, 20 ms out."""
    w = numpy.ones(LENGTH)
    fade_in, fade_out = 144, 960
    w[:fade_in] = 0.5 - 0.5 * numpy.cos(numpy.pi * (numpy.arange(fade_in) + 0.5) / fade_in)
    w[-fade_out:] = (0.5 - 0.5 * numpy.cos(numpy.pi * (numpy.arange(fade_out) + 0.5) / fade_out))[::-1]
    return w


def share(low_hz, high_hz):
    """Each bin's share of the band: bin k reaches from k - 1/2 to k + 1/2, bin 0 and the last never count."""
    k = numpy.arange(SUM_SIZE // 2 + 1) * RATE / SUM_SIZE
    half = RATE / SUM_SIZE / 2
    inside = numpy.clip(numpy.minimum(k + half, high_hz) - numpy.maximum(k - half, low_hz), 0, 2 * half) / (2 * half)
    inside[0] = inside[-1] = 0
    return inside


def bins(low_hz, high_hz):
    df = RATE / SUM_SIZE
    low, high = numpy.ceil(low_hz / df), numpy.floor(high_hz / df)
    clamp = lambda k: int(max(1, min(SUM_SIZE // 2 - 1, k)))
    return slice(clamp(low), clamp(max(low, high)) + 1)


def grid_bins(i):
    f = 20 * 1000 ** (i / 240)
    half = max(f * (2 ** (1 / 24) - 1), 0.5 / 0.105)
    return bins(f - half, f + half)


def sum_pair(case):
    count = STRETCHES * LENGTH
    s = noise(31, count + 5)
    if case == "late":
        # 5 samples late and inverted, 20 dB over noise of each channel's own
        a, b = s[5:] + 0.1 * noise(32, count), -s[:count] + 0.1 * noise(33, count)
    elif case == "snr10":
        own = 10 ** (-10 / 20)
        a, b = s[5:] + own * noise(32, count), 0.5 * (s[5:] + own * noise(33, count))
    else:
        a, b = noise(32, count), noise(33, count)
    return a, b


def sum_case(case):
    a, b = sum_pair(case)
    w = stretch_window()
    options = dict(fs=RATE, window=w, nperseg=LENGTH, noverlap=0, nfft=SUM_SIZE, detrend=False, scaling="spectrum",
                   return_onesided=False)
    back = w.sum() ** 2

    def spectra(x, y):
        return signal.csd(x, y, **options)[1][: SUM_SIZE // 2 + 1] * back

    # all stretches at once: means by SciPy, times their number
    power_a, power_b, cross = (STRETCHES * spectra(x, y) for x, y in ((a, a), (b, b), (a, b)))
    stretches = [slice(k * LENGTH, (k + 1) * LENGTH) for k in range(STRETCHES)]

    def gamma(part):
        """Complex coherency, stretches added up as they are."""
        return (cross * part).sum() / numpy.sqrt((power_a * part).real.sum() * (power_b * part).real.sum())

    def one(i):
        part = numpy.zeros(SUM_SIZE // 2 + 1)
        part[grid_bins(i)] = 1
        return part

    def parts(low_hz, high_hz):
        """Of each stretch the band in the time domain, by masking the spectrum."""
        root = numpy.sqrt(share(low_hz, high_hz))
        return [[fft.irfft(fft.rfft(x[k] * w, SUM_SIZE) * root, SUM_SIZE) for x in (a, b)] for k in stretches]

    def pearson(low_hz, high_hz):
        """Zero-lag correlation of each stretch, multiplied out; mean."""
        return numpy.mean([p @ q / numpy.sqrt((p @ p) * (q @ q)) for p, q in parts(low_hz, high_hz)])

    def lags(low_hz, high_hz):
        """Correlation of all stretches, levels made equal, with B pulled forward by so many samples, multiplied out."""
        both = parts(low_hz, high_hz)
        norm = numpy.sqrt(sum(p @ p for p, _ in both) * sum(q @ q for _, q in both))
        return [sum(p @ numpy.roll(q, -lag) for p, q in both) / norm for lag in LAGS]

    return rounded(
        {
            "name": case,
            "correlation": pearson(20, 20000),
            "bands": [
                {
                    "powerA": (power_a * share(*band)).real.sum(),
                    "powerB": (power_b * share(*band)).real.sum(),
                    "cross": (cross * share(*band)).real.sum(),
                    "correlation": gamma(share(*band)).real,
                }
                for band in BANDS
            ],
            "grid": [
                {
                    "point": i,
                    "powerA": power_a[grid_bins(i)].real.sum(),
                    "powerB": power_b[grid_bins(i)].real.sum(),
                    "crossRe": cross[grid_bins(i)].real.sum(),
                    "crossIm": cross[grid_bins(i)].imag.sum(),
                    "re": gamma(one(i)).real,
                    "im": gamma(one(i)).imag,
                }
                for i in GRID
            ],
            "lags": [{"lowHz": low, "highHz": high, "at": LAGS, "correlation": lags(low, high)} for low, high in LAG_BANDS],
        }
    )


# --- coherence traps ---------------------------------------------------------------------------------------------------


def coherence(a, b, size, segments):
    n = size * segments
    c = signal.coherence(a[:n], b[:n], fs=RATE, window="boxcar", nperseg=size, noverlap=0, detrend=False)[1]
    return c[1:-1]


def coherence_traps():
    size = 256
    a, b = noise(41, size * 400 + 64), noise(42, size * 400)
    late = a[: size * 400]
    early = a[64:]
    n16 = coherence(a, b, 4096, 16)
    return rounded(
        {
            "size": size,
            "single": coherence(a, b, size, 1).mean(),
            "unrelated16": n16.mean(),
            "unrelatedSize": 4096,
            # Carter: unrelated inputs exceed 1 − 0.01^(1/(n−1)) in 1 % of the cases
            "unrelatedOver": (n16 > 1 - 0.01 ** (1 / 15)).mean(),
            "quarterLate": coherence(early, late, size, 400).mean(),
        }
    )


# --- the running correlation -------------------------------------------------------------------------------------------


def running():
    """Second-order Butterworth high- and low-pass (signal.butter, sosfilt), exponential means (lfilter)."""
    quiet, loud = RATE, RATE
    level = numpy.concatenate([numpy.full(quiet, 1e-4), numpy.full(loud, 0.1)])
    s, na, nb = (noise(seed, quiet + loud) * level for seed in (51, 52, 53))
    a, b = s + 0.5 * na, -0.3 * s + 0.2 * nb
    at = [quiet + loud // 2, quiet + loud - 1]
    out = []
    for low, high in [(30, 10000), *BANDS]:
        sos = numpy.vstack(
            [
                signal.butter(2, low, "highpass", fs=RATE, output="sos"),
                signal.butter(2, high, "lowpass", fs=RATE, output="sos"),
            ]
        )
        x, y = signal.sosfilt(sos, a), signal.sosfilt(sos, b)
        # equivalent length 1/(2B·0.1²), at least 0.1 s; an exponential mean of time constant τ is worth 2τ
        seconds = max(0.1, 1 / (2 * (high - low) * 0.01))
        share = 1 - numpy.exp(-2 / (seconds * RATE))
        mean = lambda z: signal.lfilter([share], [1, share - 1], z)
        r = mean(x * y) / numpy.sqrt(mean(x * x) * mean(y * y))
        out.append({"lowHz": low, "highHz": high, "values": r[at]})
    return rounded({"at": at, "bands": out})


def main():
    bits = signal.max_len_seq(10)[0]
    plus = 2.0 * bits - 1
    circular = numpy.round(fft.ifft(numpy.abs(fft.fft(plus)) ** 2).real).astype(int)
    out = {
        "scipy": scipy.__version__,
        "numpy": numpy.__version__,
        "checksum": int(uint32(31, 5000).astype(numpy.uint64).sum() % 2**32),
        "first": [int(x) for x in uint32(31, 4)],
        "gcc": gcc_cases(),
        "fractional": fractional_cases(),
        "sums": [sum_case(case) for case in ("late", "snr10", "unrelated")],
        "traps": coherence_traps(),
        "running": running(),
        "mls": {
            "bits": "".join(str(int(x)) for x in bits),
            "peak": int(circular[0]),
            "elsewhere": sorted({int(x) for x in circular[1:]}),
        },
    }
    path = pathlib.Path(__file__).with_name("correlation.json")
    path.write_text(json.dumps(out) + "\n")


main()

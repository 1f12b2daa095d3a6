"""Small WAV files of many kinds, and what SciPy's own reader (scipy.io.wavfile) makes of them.

Run `python3 tests/reference/wavFiles.py` (SciPy 1.17.1 wrote the stored output): it writes wavFiles.json beside itself,
a list of {name, base64, sampleRate, channels, samples}. samples[channel][frame] are SciPy's values over full scale:
integers over 2^(bits-1) of the array that SciPy returns, 8-bit ones less 128 over 128, floats as they are.
The files are written here byte by byte, or by SciPy's writer, or by Python's wave module; all are read by SciPy.
"""

import base64
import io
import json
import pathlib
import struct
import warnings
import wave

import numpy
from scipy.io import wavfile

FRAMES = 23
RNG = numpy.random.default_rng(20240611)


def integers(bits, channels):
    top = 2 ** (bits - 1)
    x = RNG.integers(-top, top, size=(FRAMES, channels), dtype=numpy.int64)
    x[0], x[1], x[2] = -top, top - 1, 0
    return x


def packed(x, size, big=False, unsigned=False):
    order = "big" if big else "little"
    offset = 128 if unsigned else 0
    return b"".join(int(v + offset).to_bytes(size, order, signed=not unsigned) for v in x.reshape(-1))


def chunk(name, content, big=False, size=None):
    length = struct.pack(">I" if big else "<I", len(content) if size is None else size)
    return name + length + content + (b"\0" if len(content) % 2 else b"")


def fmt(coding, channels, rate, size, bits, big=False, extra=b""):
    e = ">" if big else "<"
    head = struct.pack(e + "HHIIHH", coding, channels, rate, rate * size * channels, size * channels, bits)
    return chunk(b"fmt ", head + extra, big)


def extensible(channels, rate, size, valid, coding):
    guid = struct.pack("<IHH", coding, 0, 16) + bytes.fromhex("800000aa00389b71")
    extra = struct.pack("<HHI", 22, valid, 0) + guid
    return fmt(0xFFFE, channels, rate, size, size * 8, extra=extra)


def riff(*chunks, magic=b"RIFF", size=None):
    body = b"WAVE" + b"".join(chunks)
    length = struct.pack(">I" if magic == b"RIFX" else "<I", len(body) if size is None else size)
    return magic + length + body


def by_scipy(rate, x):
    out = io.BytesIO()
    wavfile.write(out, rate, x)
    return out.getvalue()


def by_wave_module(rate, size, x):
    out = io.BytesIO()
    with wave.open(out, "wb") as w:
        w.setnchannels(x.shape[1])
        w.setsampwidth(size)
        w.setframerate(rate)
        w.writeframes(packed(x, size))
    return out.getvalue()


def files():
    for channels in (1, 2, 3):
        yield f"8 bit, {channels} ch", riff(
            fmt(1, channels, 8000, 1, 8), chunk(b"data", packed(integers(8, channels), 1, unsigned=True)))
        yield f"24 bit, {channels} ch, wave module", by_wave_module(48000, 3, integers(24, channels))
    yield "16 bit, wave module", by_wave_module(44100, 2, integers(16, 2))
    yield "16 bit, SciPy", by_scipy(44100, integers(16, 2).astype("<i2"))
    yield "32 bit, SciPy", by_scipy(96000, integers(32, 2).astype("<i4"))
    yield "64 bit, SciPy", by_scipy(48000, integers(63, 2).astype("<i8") * 2)
    yield "float 32, SciPy", by_scipy(48000, RNG.normal(size=(FRAMES, 2)).astype("<f4"))
    yield "float 64, SciPy", by_scipy(88200, RNG.normal(size=(FRAMES, 2)).astype("<f8"))
    yield "16 bit EXTENSIBLE", riff(extensible(2, 48000, 2, 16, 1), chunk(b"data", packed(integers(16, 2), 2)))
    yield "24 bit EXTENSIBLE", riff(extensible(2, 48000, 3, 24, 1), chunk(b"data", packed(integers(24, 2), 3)))
    yield "float 32 EXTENSIBLE", riff(
        extensible(2, 48000, 4, 32, 3), chunk(b"data", RNG.normal(size=(FRAMES, 2)).astype("<f4").tobytes()))
    yield "12 bits in 16", riff(fmt(1, 2, 44100, 2, 12), chunk(b"data", packed(integers(12, 2) * 16, 2)))
    yield "20 bits in 24", riff(fmt(1, 2, 44100, 3, 20), chunk(b"data", packed(integers(20, 2) * 16, 3)))
    yield "40 bit", riff(fmt(1, 2, 44100, 5, 40), chunk(b"data", packed(integers(40, 2), 5)))
    yield "odd chunk before and after the data", riff(
        chunk(b"LIST", b"odd"), fmt(1, 1, 44100, 3, 24), chunk(b"junk", b"\1"),
        chunk(b"data", packed(integers(24, 1), 3)), chunk(b"LIST", b"x"))
    yield "broadcast wave", riff(
        chunk(b"bext", bytes(602)), fmt(1, 2, 48000, 3, 24), chunk(b"data", packed(integers(24, 2), 3)))
    data = packed(integers(24, 2), 3)
    ds64 = chunk(b"ds64", struct.pack("<QQQI", 4 + 36 + 24 + 8 + len(data), len(data), FRAMES, 0))
    yield "RF64", riff(
        ds64, fmt(1, 2, 48000, 3, 24), chunk(b"data", data, size=0xFFFFFFFF), magic=b"RF64", size=0xFFFFFFFF)
    yield "RIFX 16 bit", riff(
        fmt(1, 2, 44100, 2, 16, big=True), chunk(b"data", packed(integers(16, 2), 2, big=True), big=True), magic=b"RIFX")
    yield "RIFX 24 bit", riff(
        fmt(1, 1, 44100, 3, 24, big=True), chunk(b"data", packed(integers(24, 1), 3, big=True), big=True), magic=b"RIFX")
    yield "cut short", by_scipy(44100, integers(16, 2).astype("<i2"))[:-20]


def over_full_scale(x):
    if x.dtype == numpy.uint8:
        return (x.astype(float) - 128) / 128
    if numpy.issubdtype(x.dtype, numpy.integer):
        return x.astype(float) / 2.0 ** (8 * x.dtype.itemsize - 1)
    return x.astype(float)


def main():
    stored = []
    for name, content in files():
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            rate, x = wavfile.read(io.BytesIO(content))
        x = over_full_scale(x.reshape(len(x), -1))
        stored.append({
            "name": name, "base64": base64.b64encode(content).decode(),
            "sampleRate": rate, "channels": x.shape[1], "samples": x.T.tolist(),
        })
    out = pathlib.Path(__file__).with_suffix(".json")
    out.write_text("[\n" + ",\n".join(json.dumps(f) for f in stored) + "\n]\n")
    print(f"{out.name}: {len(stored)} files")


main()

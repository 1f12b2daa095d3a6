"""Small audio files by other writers: FFmpeg 5.1.9, SoX 14.4.2 and flac 1.4.2 (Debian 12) wrote the stored ones.

Run `python3 tests/reference/trackFiles.py` (needs the three programs): it writes trackFiles.json beside itself, a list of
{name, command, base64, kind, coding, sampleRate, channels, bits, frames, startFrame, seed}. The samples aren't stored: `walk` makes them, here
and in tests/files/tracks/trackBytes.ts.
"""

import base64
import json
import pathlib
import shlex
import subprocess
import tempfile

FRAMES = 160


def walk(seed, bits, count):
    """A walk of `count` steps that begins at both ends of full scale, wrapped round; no two neighbours alike."""
    state, level, top = seed, 0, 2 ** (bits - 1)
    out = [-top, top - 1]
    for i in range(count - 2):
        state = (state * 1664525 + 1013904223) % 2**32
        level += (state >> (32 - bits)) // 16 - top // 16
        out.append((level + top) % (2 * top) - top)
    return out[:count]


def raw(seed, bits, channels, frames):
    size = (bits + 7) // 8
    return b"".join(v.to_bytes(size, "little", signed=True) for v in walk(seed, bits, channels * frames))


def made(name, command, kind, rate, channels, bits, seed, frames=FRAMES, coding="pcm", out_bits=None, start=None):
    """`command` reads raw samples from IN and writes OUT, or writes to its standard output where OUT isn't named."""
    suffix = "flac" if kind == "flac" else "wav"
    with tempfile.TemporaryDirectory() as folder:
        source, result = f"{folder}/in.raw", f"{folder}/out.{suffix}"
        pathlib.Path(source).write_bytes(raw(seed, bits, channels, frames))
        text = command.format(rate=rate, channels=channels, bits=bits)
        words = [w.replace("IN", source).replace("OUT", result).replace("MID", f"{folder}/mid.wav") for w in shlex.split(text)]
        done = None
        while words:
            step, words = (words[: words.index(";")], words[words.index(";") + 1 :]) if ";" in words else (words, [])
            done = subprocess.run(step, capture_output=True, check=True)
        file = pathlib.Path(result)
        data = file.read_bytes() if file.exists() else done.stdout
    return {
        "name": name,
        "command": text,
        "base64": base64.b64encode(data).decode(),
        "kind": kind,
        "coding": coding,
        "sampleRate": rate,
        "channels": channels,
        "bits": out_bits or bits,
        "sourceBits": bits,
        "frames": frames,
        "startFrame": start,
        "seed": seed,
    }


FF = "ffmpeg -v error -f s{bits}le -ar {rate} -ac {channels} -i IN "
SOX = "sox -t raw -e signed -b {bits} -r {rate} -c {channels} IN "
FLAC = "flac -s --no-padding --force-raw-format --endian=little --sign=signed --channels={channels} --bps={bits} --sample-rate={rate} "
BEXT = "-write_bext 1 -metadata time_reference=172800123 "

files = [
    made("FFmpeg, 16 bit", FF + "-c:a pcm_s16le OUT", "wav", 44100, 2, 16, 1),
    made("FFmpeg, 24 bit with a time reference", FF + BEXT + "-c:a pcm_s24le OUT", "wav", 48000, 2, 24, 2, start=172800123),
    made("FFmpeg, 32 bit", FF + "-c:a pcm_s32le OUT", "wav", 96000, 3, 32, 3),
    made("FFmpeg, float 32", FF + "-c:a pcm_f32le OUT", "wav", 48000, 1, 24, 4, coding="float", out_bits=32),
    made("FFmpeg, float 64", FF + "-c:a pcm_f64le OUT", "wav", 48000, 2, 24, 5, coding="float", out_bits=64),
    made("FFmpeg, RF64", FF + "-rf64 always -c:a pcm_s24le OUT", "wav", 48000, 2, 24, 6),
    made("FFmpeg, RF64 with a time reference", FF + BEXT + "-rf64 always -c:a pcm_s16le OUT", "wav", 48000, 1, 16, 7, start=172800123),
    made("FFmpeg, piped", FF + "-c:a pcm_s24le -f wav -", "wav", 48000, 8, 24, 8),
    made("SoX, 16 bit", SOX + "-t wav OUT", "wav", 44100, 1, 16, 9),
    made("SoX, 24 bit", SOX + "-b 24 -t wav OUT", "wav", 96000, 3, 24, 10),
    made("SoX, float 32", SOX + "-e float -b 32 -t wav OUT", "wav", 48000, 2, 24, 11, coding="float", out_bits=32),
    made("flac, with the time reference of FFmpeg’s WAV", FF + BEXT + "-c:a pcm_s24le MID ; flac -s --no-padding --keep-foreign-metadata MID -o OUT", "flac", 48000, 2, 24, 12, start=172800123),
    made("FFmpeg, FLAC with a time reference", FF + "-metadata time_reference=172800123 -c:a flac -f flac OUT", "flac", 48000, 1, 16, 13, start=172800123),
    made("flac, many frames", FLAC + "-b 192 -8 IN -o OUT", "flac", 48000, 1, 16, 14, frames=2000),
    made("flac, many frames of two channels", FLAC + "-b 256 -5 -m IN -o OUT", "flac", 96000, 2, 24, 15, frames=1500),
    made("flac, piped", FLAC + "-b 192 -c IN", "flac", 44100, 2, 16, 16, frames=600),
    made("flac, 8 bit", FLAC + "IN -o OUT", "flac", 48000, 1, 8, 17),
]
RATES = [44100, 48000, 96000]
for channels in range(1, 9):
    for bits in (16, 24):
        rate = RATES[(channels + bits // 8) % 3]
        files.append(made(f"flac, {bits} bit, {channels} channels", FLAC + "IN -o OUT", "flac", rate, channels, bits, 100 * channels + bits))

target = pathlib.Path(__file__).with_name("trackFiles.json")
target.write_text(json.dumps(files, indent=0, ensure_ascii=False) + "\n")
print(f"{len(files)} files, {target.stat().st_size} bytes")

"""Modulation transfer of tilted edges by the steps of ISO 12233's e-SFR as commonly described: rows' centroids of the
slope under a Hamming window, a straight line through them, bins of a quarter of a pixel, differences, a Hamming window, a
discrete Fourier transform, and division by what the differences pass.

Written apart from the Java code, for comparison with it. Run: python3 e-sfr.py > e-sfr.csv (NumPy only).
"""

import math
import sys

import numpy as np

ROWS, COLUMNS, BINS = 200, 120, 4
FREQUENCIES = np.arange(0.02, 0.5001, 0.02)


def pixels(shape, size, degrees, noise):
    """The edge, with a noise that any language computes alike: fractions of large sines."""
    y, x = np.mgrid[0:ROWS, 0:COLUMNS].astype(float)
    at = (x - COLUMNS / 2 + 0.3) * math.cos(math.radians(degrees)) + (y - ROWS / 2) * math.sin(math.radians(degrees))
    if shape == "gaussian":
        edge = 0.5 * (1 + np.vectorize(math.erf)(at / size / math.sqrt(2)))
    elif shape == "exponential":
        edge = np.where(at < 0, 0.5 * np.exp(np.minimum(at, 0) / size), 1 - 0.5 * np.exp(-np.maximum(at, 0) / size))
    else:
        edge = np.clip(at / size + 0.5, 0, 1)
    k = y * COLUMNS + x
    uniform = np.sin(12.9898 * (k + 1)) * 4375.8545
    return 0.4 + edge + noise * math.sqrt(12) * (uniform - np.floor(uniform) - 0.5)


def hamming(positions, centre, half):
    return np.where(np.abs(positions - centre) <= half, 0.54 + 0.46 * np.cos(np.pi * (positions - centre) / half), 0)


def sfr(values):
    slopes = values[:, 1:] - values[:, :-1]
    places = np.arange(COLUMNS - 1) + 0.5
    rows = np.arange(ROWS)
    centre = np.full(ROWS, COLUMNS / 2.0)
    for half_width in (COLUMNS / 2, 24, 12, 12):
        window = np.array([hamming(places, c, half_width) for c in centre])
        centroids = (slopes * window * places).sum(axis=1) / (slopes * window).sum(axis=1)
        slope, offset = np.polyfit(rows, centroids, 1)
        centre = offset + slope * rows
    distance = (np.arange(COLUMNS)[None, :] - centre[:, None]) / math.hypot(1, slope)
    half = int(BINS * (COLUMNS / 2 - abs(slope) * ROWS / 2 - 4))
    index = np.rint(distance * BINS).astype(int)
    inside = np.abs(index) <= half
    sums = np.bincount(index[inside] + half, weights=values[inside], minlength=2 * half + 1)
    counts = np.bincount(index[inside] + half, minlength=2 * half + 1)
    spread = sums / counts
    line = spread[1:] - spread[:-1]
    at = (np.arange(len(line)) - half + 0.5) / BINS
    line = line * hamming(at, 0.0, half / BINS)
    response = np.array([abs(np.sum(line * np.exp(-2j * np.pi * f * at))) for f in FREQUENCIES]) / abs(np.sum(line))
    # The difference of neighbours passes sinc(f d), and so does the mean over a bin of width d = 1/4 pixel.
    passed = np.sinc(FREQUENCIES / BINS)
    return response / passed / passed


def main():
    print("# python3 e-sfr.py > e-sfr.csv with Python %s, NumPy %s" % (sys.version.split()[0], np.__version__))
    print("shape,size,degrees,noise,frequency,modulation")
    for shape, size in (("gaussian", 1.2), ("exponential", 0.8), ("slit", 2.5)):
        for degrees in (4, 8, 15):
            for noise in (0, 0.01):
                for f, m in zip(FREQUENCIES, sfr(pixels(shape, size, degrees, noise))):
                    print("%s,%s,%s,%s,%.2f,%.6f" % (shape, size, degrees, noise, f, m))


main()

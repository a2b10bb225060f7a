"""Expected values of NoiseSpectrumTest: python3 noise_spectrum.py (NumPy 2.4.6, SciPy 1.17.1).

The power of blocks of 8 pixels of an image of 14 by 12, from the definition: a plane is taken out of each block by least
squares, and white noise of power 1 would come out as 1 at every frequency.
"""

import numpy as np
from scipy.special import j1

SIDE, PITCH = 8, 5.0
y, x = np.mgrid[0:12, 0:14]
image = 0.8 + 0.1 * np.sin(1.3 * x + 0.9 * y + 0.05 * x * y) + 0.05 * np.cos(2.1 * x - 1.7 * y) + 0.01 * x

rows, columns = np.mgrid[0:SIDE, 0:SIDE]
basis = np.stack([np.ones(SIDE * SIDE), columns.ravel(), rows.ravel()], axis=1)
keep = np.eye(SIDE * SIDE) - basis @ np.linalg.pinv(basis)
hann = np.sin(np.pi * (np.arange(SIDE) + 0.5) / SIDE) ** 2
window = np.outer(hann, hann).ravel()

blocks = [
    image[top : top + SIDE, left : left + SIDE].ravel()
    for top in range(0, 12 - SIDE + 1, SIDE // 2)
    for left in range(0, 14 - SIDE + 1, SIDE // 2)
]
power = np.empty((SIDE, SIDE))
for v in range(SIDE):
    for u in range(SIDE):
        wave = window * np.exp(-2j * np.pi * (u * columns + v * rows).ravel() / SIDE)
        # White noise n of variance 1 gives |wave · keep n|², on the average wave · keep · wave*.
        white = np.real(np.conj(wave) @ keep @ wave)
        power[v, u] = np.mean([abs(wave @ keep @ block) ** 2 for block in blocks]) / white * PITCH**2

frequency = np.hypot(*np.meshgrid(np.fft.fftfreq(SIDE) * SIDE, np.fft.fftfreq(SIDE) * SIDE))
print("blocks", len(blocks))
for across, down in ((1, 0), (0, 1), (2, 3), (-1, 2), (-4, -4), (0, 0)):
    print("power", across, down, repr(float(power[down, across])))
# Uncertainties by the rule that NoiseSpectrum states (common practice, no source): as many independent blocks as fit without
# overlap; half of the frequencies mirror the others, and the window spreads each over about two, hence 4.
independent = 14 / 8 * 12 / 8
for ring in range(1, 5):
    on = power[np.rint(frequency) == ring]
    print("ring", ring, len(on), repr(float(on.mean())), repr(float(on.mean() / np.sqrt(independent * len(on) / 4))))
z = np.pi * frequency / (SIDE * PITCH) * 12
passed = np.where(z == 0, 1, 2 * j1(z) / np.where(z == 0, 1, z)) ** 2 / (SIDE * PITCH) ** 2
total = (power * passed).sum()
spread = np.sqrt(4 * ((power * passed) ** 2).sum() / independent)
print("deviation through 12 um", repr(float(np.sqrt(total))), repr(float(spread / (2 * np.sqrt(total)))))

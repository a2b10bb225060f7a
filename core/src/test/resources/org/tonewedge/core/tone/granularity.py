"""Granularity and noise power of the field of GranularityTest, worked out without this library.

Run with Python 3: python3 granularity.py (made with Python 3.11.7, NumPy 2.4.6).
"""
import numpy as np

SIDE, PITCH, PIXELS, BLOCK, CYCLES = 60, 8, 6, 20, 3

x, field = 12345, []
for i in range(SIDE * SIDE):
    x = (x * 1103515245 + 12345) % 2 ** 31
    field.append(1 + 0.06 * (x / 2 ** 31 - 0.5) + 0.0004 * (i % SIDE) - 0.0002 * (i // SIDE))
field = np.array(field).reshape(SIDE, SIDE)


def residuals(values, columns):
    matrix = np.array(columns).T
    return values - matrix @ np.linalg.lstsq(matrix, values, rcond=None)[0]


# an aperture of 48 micrometres is a disc in blocks of 6 x 6 pixels, each pixel sampled 16 x 16 times; transmittances are averaged
place = (np.arange(PIXELS * 16) + 0.5) / 16 - PIXELS / 2
disc = (place[:, None] ** 2 + place ** 2 <= (PIXELS / 2) ** 2).reshape(PIXELS, 16, PIXELS, 16).mean((1, 3))
weights = disc / disc.sum()
count = SIDE // PIXELS
light = (10 ** -field).reshape(count, PIXELS, count, PIXELS).transpose(0, 2, 1, 3)
read = -np.log10((light * weights).sum((2, 3))).ravel()
row, column = (each.ravel() for each in np.indices((count, count)).astype(float))
# white noise through such a disc, for that through the exact area
exact = 1 / np.sqrt((weights ** 2).sum() * np.pi * (PIXELS / 2) ** 2)
trends = {'level': [row ** 0], 'plane': [row ** 0, column, row],
          'quadratic': [row ** 0, column, row, column ** 2, column * row, row ** 2]}
for name, columns in trends.items():
    print(name, exact * np.sqrt((residuals(read, columns) ** 2).sum() / (len(read) - len(columns))))
print('mean density', read.mean())

# noise power: a plane is taken out of the whole field; then blocks of 20 pixels, up to 3 cycles per block
row, column = (each.ravel() for each in np.indices(field.shape).astype(float))
plane = [row ** 0, column, row]
left = residuals(field.ravel(), plane).reshape(field.shape)
taken = np.linalg.qr(np.array(plane).T)[0].reshape(SIDE, SIDE, 3)
powers, undivided = [], []
for i in range(0, SIDE, BLOCK):
    for j in range(0, SIDE, BLOCK):
        block = np.s_[i:i + BLOCK, j:j + BLOCK]
        power = PITCH ** 2 * abs(np.fft.fft2(left[block])) ** 2 / BLOCK ** 2
        share = 1 - (abs(np.fft.fft2(taken[block], axes=(0, 1))) ** 2).sum(2) / BLOCK ** 2
        for u in range(CYCLES + 1):
            for v in range(-CYCLES, CYCLES + 1):
                if (u > 0 or v > 0) and np.hypot(u, v) <= CYCLES:
                    undivided.append(power[v, u])
                    powers.append(power[v, u] / share[v, u])
print('noise power', np.mean(powers), 'undivided', np.mean(undivided), 'terms', len(powers))

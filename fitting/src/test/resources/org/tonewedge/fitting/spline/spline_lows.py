"""Lows of the penalised score of a natural smoothing spline, that SmoothingSplineProperties expects.

Run with Python 3: python3 spline_lows.py (made with Python 3.11.7, NumPy 2.4.6). The smoother matrix is dense, S = (I + lambda K)^-1
with the roughness matrix K = Q R^-1 Q^T of the natural cubic spline (Green and Silverman, from memory); the score is
n RSS / (n - 1.2 tr S)^2, in steps of 0.002 in log10 lambda.
"""
import numpy as np

GAPS = np.array([0, 50, 50, 452, 57, 72, 127, 310, 110, 91, 68, 53, 97, 94, 178, 351, 169, 487, 524, 100, 140, 530, 50])
Y = np.array([
    2.9044, 2.6650, 2.8163, 2.7698, 2.8417, 2.7978, 2.6723, 2.3824, 2.5798, 2.5646, 2.6112, 2.5692, 2.4547, 2.2003, 2.1189,
    1.6865, 1.5353, 1.6650, 1.2011, 1.2769, 1.4678, 0.9851, 1.2263])
X = -3.95 + np.cumsum(GAPS) / 1000
N = len(X)
H = np.diff(X)
Q = np.zeros((N, N - 2))
R = np.zeros((N - 2, N - 2))
for j in range(N - 2):
    Q[j:j + 3, j] = 1 / H[j], -1 / H[j] - 1 / H[j + 1], 1 / H[j + 1]
    R[j, j] = (H[j] + H[j + 1]) / 3
    if j + 1 < N - 2:
        R[j, j + 1] = R[j + 1, j] = H[j + 1] / 6
K = Q @ np.linalg.solve(R, Q.T)
VALUES, VECTORS = np.linalg.eigh(K)
ALONG = VECTORS.T @ Y


def score(log_lambda):
    kept = 1 / (1 + 10 ** log_lambda * np.maximum(VALUES, 0))
    trace = kept.sum()
    return N * (((1 - kept) * ALONG) ** 2).sum() / (N - 1.2 * trace) ** 2, trace


grid = np.arange(-8, 3, 0.002)
found = [score(at) for at in grid]
for i in range(1, len(grid) - 1):
    if found[i][0] < found[i - 1][0] and found[i][0] < found[i + 1][0]:
        print('low of %.5f at %.2f degrees of freedom' % found[i])

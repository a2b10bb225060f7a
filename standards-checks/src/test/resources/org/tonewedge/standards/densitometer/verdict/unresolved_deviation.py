"""Expected values of UnresolvedDeviationTest: python3 unresolved_deviation.py (NumPy 2.4.6, SciPy 1.17.1).

The second moments of the error that a Gaussian process g makes of a weighted fit, beside the residuals of that fit, by a normal
distribution of residuals and error that is conditioned on the residuals. Nothing is diagonalised: the residuals are contrasts by
a null space, and the limit of the amplitude is where their likelihood, as SciPy's multivariate normal has it, is 2.706 / 2 below
its greatest.
"""

import numpy as np
from scipy.linalg import null_space
from scipy.optimize import brentq, minimize_scalar
from scipy.stats import multivariate_normal


def moments(density, residual, variance, gradient, at):
    X = np.array([gradient(d) for d in density])
    V = np.diag(variance)
    length = (density.max() - density.min()) / min(4, len(density) - 1)
    kernel = lambda a, b: np.exp(-((a[:, None] - b) ** 2) / (2 * length**2))
    K = kernel(density, density)
    N = null_space(X.T)
    z = N.T @ residual
    log_l = lambda t: multivariate_normal.logpdf(z, cov=N.T @ (V + t * t * K) @ N)
    grid = np.concatenate([[0], np.geomspace(1e-6, 1, 4000)])
    values = np.array([log_l(t) for t in grid])
    best = values.argmax()
    top = values[best]
    if best > 0:
        ends = grid[best - 1], grid[best + 1]
        top = -minimize_scalar(lambda t: -log_l(t), bounds=ends, method="bounded", options={"xatol": 1e-13}).fun
    above = best + np.argmax(values[best:] < top - 2.706 / 2)
    t = brentq(lambda t: log_l(t) - top + 2.706 / 2, grid[above - 1], grid[above], xtol=1e-15)
    H = np.array([gradient(d) for d in at]) @ np.linalg.solve(X.T @ np.linalg.solve(V, X), X.T @ np.linalg.inv(V))
    cross = t * t * (H @ K - kernel(at, density)) @ N
    own = t * t * (kernel(at, at) - H @ kernel(density, at) - (H @ kernel(density, at)).T + H @ K @ H.T)
    S = N.T @ (V + t * t * K) @ N
    mean = cross @ np.linalg.solve(S, z)
    return t, own - cross @ np.linalg.solve(S, cross.T) + np.outer(mean, mean)


def line(d):
    return [1, d]


def leak(d):
    seen = 10**-d + 0.0004
    return [1, -np.log10(seen), -1.02 / (np.log(10) * seen)]


at = np.array([0.2, 1.3, 2.6])
for name, density, residual, u, gradient in [
    ("line of 5", [0.05, 0.8, 1.55, 2.3, 3.05], [-0.003, 0.007, 0.001, -0.008, 0.003], [0.005] * 5, line),
    ("line of 3", [0.1, 1.1, 2.9], [0.001, -0.002, 0.001], [0.002, 0.003, 0.004], line),
    ("uneven line of 6", [0.05, 0.2, 0.5, 1.1, 2.0, 3.0], [0.001, 0, -0.002, 0.004, -0.001, -0.001], [0.003, 0.003, 0.003, 0.004, 0.005, 0.006], line),
    ("exact line of 9", list(np.arange(9) * 0.375), [0] * 9, [0.004] * 9, line),
    ("leak of 7", [0.1, 0.6, 1.1, 1.6, 2.1, 2.6, 3.1], [0.002, -0.005, 0.004, 0.002, -0.004, 0.001, 0], [0.003] * 7, leak),
]:
    density, residual, u = (np.array(v, float) for v in (density, residual, u))
    X = np.array([gradient(d) for d in density]) / u[:, None]
    residual = residual - u * (X @ np.linalg.lstsq(X, residual / u, rcond=None)[0])
    t, m = moments(density, residual, u * u, gradient, at)
    print(name, "; ".join(repr(float(v)) for v in [t, m[0, 0], m[1, 1], m[2, 2], m[0, 2]]), sep="; ")

# What DensityCorrectionTest adds to the formula of the e-Handbook: steps 0, 1, 2, 3, divided by the slope squared.
steps = np.arange(4.0)
for slope, off, variance in [(0.5, 0, 0.0001), (1, 0.03, 2 * 0.03**2)]:
    t, m = moments(steps, off * np.array([1, -1, -1, 1]), np.full(4, variance), line, np.array([0, 1.5, 3]))
    print("slope", slope, "at D 0, 1.5, 3:", *(np.diag(m) / slope**2))

"""Chances of Durbin and Watson's ratio by Imhof's integral over eigenvalues, each followed by the share of 10⁶ simulated
sets of errors: the numbers in LackOfFitTest and DurbinWatsonTest.

python3 durbin_watson.py (NumPy 2.4.6, SciPy 1.17.1)
"""

import numpy as np
from scipy.integrate import quad

random = np.random.default_rng(1)


def chance(x, ratio, degree=1, unexposed=0):
    """P(ratio or less) for the residuals of a polynomial through normal errors at x, and at no exposure, where it is its constant."""
    design = np.vander(x, degree + 1, increasing=True)
    design = np.r_[design, np.eye(degree + 1)[[0] * unexposed].reshape(unexposed, degree + 1)]
    across = np.eye(len(design)) - design @ np.linalg.pinv(design)
    differences = np.diff(np.eye(len(x), len(design)), axis=0)
    exposed = np.diag(np.r_[np.ones(len(x)), np.zeros(unexposed)])
    form = differences.T @ differences - ratio * exposed
    weights = np.linalg.eigvalsh(across @ form @ across)
    weights = weights[abs(weights) > 1e-10]
    weights /= np.sqrt(np.sum(weights**2))

    def integrand(u):
        return np.sin(0.5 * np.sum(np.arctan(weights * u))) * np.exp(-0.25 * np.sum(np.log1p(weights**2 * u**2))) / u

    below = 0
    for _ in range(1000):
        errors = across @ random.standard_normal((len(design), 1000))
        below += np.sum(np.sum(errors * (form @ errors), axis=0) <= 0)
    integral = quad(integrand, 0, 1, epsabs=1e-12)[0] + quad(integrand, 1, np.inf, limit=500, epsabs=1e-12)[0]
    return f"{0.5 - integral / np.pi:.9f} {below / 1e6:.6f}"


print("LackOfFitTest")
print(chance(np.arange(8.0), 1))
print(chance(np.arange(8.0), 2))
print(chance(np.array([0, 1, 2, 3, 3, 4, 4, 5, 6, 7.0]), 13.5 / 17))
print("DurbinWatsonTest")
for n, ratio, degree, unexposed in [
    (9, 2.5, 3, 0),
    (9, 1.6, 3, 2),
    (7, 1.5, 4, 1),
    (21, 1.5, 4, 3),
    (21, 2.9, 4, 3),
    (31, 1.4, 4, 0),
    (301, 1.8, 4, 0),
    (301, 1.5, 4, 0),
    (1001, 1.8, 4, 0),
    (1001, 2.2, 4, 3),
]:
    print(n, ratio, degree, unexposed, chance(np.linspace(-1, 1, n), ratio, degree, unexposed), flush=True)

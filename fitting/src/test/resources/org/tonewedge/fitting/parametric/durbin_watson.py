"""Chances of Durbin and Watson's ratio for straight lines, by Imhof's integral: the numbers in LackOfFitTest.

python3 durbin_watson.py (NumPy 2.4.6, SciPy 1.17.1)
"""

import numpy as np
from scipy.integrate import quad


def chance(x, ratio):
    """P(ratio or less) for the residuals of a line through normal errors at x."""
    n = len(x)
    design = np.c_[np.ones(n), x]
    across = np.eye(n) - design @ np.linalg.pinv(design)
    differences = np.diff(np.eye(n), axis=0)
    weights = np.linalg.eigvalsh(across @ differences.T @ differences @ across - ratio * across)
    weights = weights[abs(weights) > 1e-10]

    def integrand(u):
        return np.sin(0.5 * np.sum(np.arctan(weights * u))) / (u * np.prod((1 + weights**2 * u**2) ** 0.25))

    return 0.5 - quad(integrand, 0, np.inf, limit=500)[0] / np.pi


print(chance(np.arange(8.0), 1))
print(chance(np.arange(8.0), 2))
print(chance(np.array([0, 1, 2, 3, 3, 4, 4, 5, 6, 7.0]), 13.5 / 17))

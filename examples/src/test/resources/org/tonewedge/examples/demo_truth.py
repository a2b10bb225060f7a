"""Figures of the curves that the demo readings were made with, worked out without this library.

Run with Python 3: python3 demo_truth.py (made with Python 3.11.7, SciPy 1.17.1, NumPy 2.4.6). The formulas are those of
DemoStrips, DemoFrames and DemoDevelopment; the definitions are those that the classes of the methods state.
"""
import numpy as np
from scipy.interpolate import CubicHermiteSpline
from scipy.optimize import brentq, fsolve

STOP = np.log10(2)


def ramp(x, softness):
    return softness * np.logaddexp(0, x / softness)


class Film:
    """A usual stock: density above base plus fog, and the log exposure of its speed point."""

    def __init__(self, base, contrast, box, faster):
        self.base, self.contrast, self.box = base, contrast, box
        self.speed_point = np.log10(0.8 / (box * 2 ** faster))
        self.toe = self.speed_point - brentq(lambda x: self.beyond(x) - 0.10, -2, 3)

    def beyond(self, x):
        return self.contrast * (ramp(x, 0.16) - ramp(x - 3, 0.30))

    def net(self, log_exposure):
        return self.beyond(log_exposure - self.toe)

    def gradient(self, log_exposure):
        x = log_exposure - self.toe
        return self.contrast * (1 / (1 + np.exp(-x / 0.16)) - 1 / (1 + np.exp(-(x - 3) / 0.30)))


r00, s02 = Film(0.24, 0.68, 125, -0.1), Film(0.28, 0.66, 400, -0.8)
print('R00 average gradient over 1.50', (r00.net(r00.speed_point + 1.5) - 0.10) / 1.5)

# contrast index: points at 0.2 and 2.2 from a point of base plus fog, on one straight line with it
def off(p):
    return [r00.net(p[0] + radius * np.cos(p[1])) - radius * np.sin(p[1]) for radius in (0.2, 2.2)]


print('R00 contrast index', np.tan(fsolve(off, [r00.speed_point - 0.1, 0.55], xtol=1e-12)[1]))

# the shadow, of reflectance 0.028 where the grey of 0.18 gets 8/S lux seconds, on the metered frame of R00; and the stops from
# the metered frame at which S02 has the same net density
shadow = np.log10(0.028 / 0.18)
target = r00.net(np.log10(8 / 125) + shadow)
wanted = brentq(lambda x: s02.net(x) - target, -4, 0)
print('shadow match of S02', (wanted - np.log10(8 / 400) - shadow) / STOP)

# the least exposure at which a third of a stop changes the density by three times its noise, 0.004 + 0.002 D
def least(film):
    return brentq(
        lambda x: film.gradient(x) * STOP / 3 - 3 * (0.004 + 0.002 * (film.base + film.net(x))), film.toe - 1, film.toe + 1)


print('speed of S02 for a scanner, stops from R00', (least(r00) - least(s02)) / STOP)

print('R00 density at log H -1', r00.base + r00.net(-1.0))
print('R00 speed by 1/H at 0.30', 10 ** -brentq(lambda x: r00.net(x) - 0.30, -4, 0))

# ISO 5800 with R00, S01 and S02 as red, green and blue: 0.15 above base plus fog, green and the slowest layer
s01 = Film(0.24, 0.66, 100, -0.4)
layers = [brentq(lambda x, film=film: film.net(x) - 0.15, -4, 0) for film in (r00, s01, s02)]
print('colour negative speed', np.sqrt(2) / 10 ** ((layers[1] + max(layers)) / 2))

# the metered tone, at log H -1.2 with flare of 0.02, on R00 and on the demo paper, where a negative of 0.8 prints as 0.7
negative = r00.base + r00.net(-1.2 + np.log10(1.02))
behind = 0.75 + np.log(0.32 / 0.68) / 4.4 + 0.8 - negative
print('metered tone: negative', negative, 'print', 0.06 + 2 / (1 + np.exp(-4.4 * (behind - 0.75))))


# the times of the demo development, whose formula is that of DemoDevelopment: the contrast condition, and N+1 and N+2 of a subject
# of seven stops as DevelopmentSeries.expansions defines them
def developed(log_exposure, minutes):
    growth = np.log(minutes / 9)
    beyond = log_exposure + 2.02 + 0.085 * growth
    gradient = 1.578 * (1 - np.exp(-0.06 * (minutes - 0.4)))
    return gradient * (ramp(beyond, 0.15) - ramp(beyond - 2.35 + 0.1 * growth, 0.28))


def speed_point(minutes):
    return brentq(lambda x: developed(x, minutes) - 0.10, -4, 0)


def rise(minutes, log_range):
    return developed(speed_point(minutes) + log_range, minutes) - 0.10


normal = brentq(lambda t: rise(t, 1.30) - 0.80, 6, 15)
print('time for 0.80 over 1.30', normal)
print('  at 22 and 24 degrees', normal / 1.95 ** 0.2, normal / 1.95 ** 0.4)
for stops in (1, 2):
    minutes = brentq(lambda t: rise(t, (7 - stops) * STOP) - rise(normal, 7 * STOP), 6, 25)
    faster = (speed_point(normal) - speed_point(minutes)) / STOP
    print('N +', stops, minutes, 'at 24 degrees', minutes / 1.95 ** 0.4, 'stops faster', faster)


# by how much errors of 0.005 shorten the straight line of a monotone cubic through 31 readings (AnatomyOfReadingsTest): the
# gradient averaged over a stop is at least four fifths of its greatest
def fritsch_carlson(x, y):
    secants = np.diff(y) / np.diff(x)
    slopes = np.r_[secants[0], (secants[1:] + secants[:-1]) / 2, secants[-1]]
    for k, secant in enumerate(secants):
        if secant == 0:
            slopes[k] = slopes[k + 1] = 0
            continue
        slopes[k:k + 2] = np.where(slopes[k:k + 2] * secant < 0, 0, slopes[k:k + 2])
        a, b = slopes[k:k + 2] / secant
        if a * a + b * b > 9:
            slopes[k:k + 2] *= 3 / np.hypot(a, b)
    return CubicHermiteSpline(x, y, slopes)


def straight_line(density):
    x = np.arange(-3 + STOP / 2, 0.6 - STOP / 2, 1e-3)
    gradient = density(x + STOP / 2) - density(x - STOP / 2)
    steepest = gradient.argmax()
    below = np.flatnonzero(gradient < 0.8 * gradient[steepest])
    first = below[below < steepest].max(initial=-1) + 1
    last = below[below > steepest].min(initial=len(x)) - 1
    return x[last] - x[first]


random = np.random.default_rng(1)
errors = []
for _ in range(2000):
    u = random.random(6)
    base, contrast, toe, shoulder = 0.05 + 0.3 * u[0], 0.4 + 0.8 * u[1], -2.1 + 0.6 * u[2], -0.6 + 0.8 * u[4]
    soft, softer = 0.06 + 0.29 * u[3], 0.06 + 0.29 * u[5]

    def truth(x):
        return base + contrast * (ramp(x - toe, soft) - ramp(x - shoulder, softer))

    read = np.linspace(-3, 0.6, 31)
    drawn = fritsch_carlson(read, truth(read) + 0.005 * random.standard_normal(31))
    errors.append(straight_line(drawn) - straight_line(truth))
print('straight line through the readings', np.mean(errors), 'u', np.std(errors) / np.sqrt(len(errors)))

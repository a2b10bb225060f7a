"""Expected results of methods, worked out without this library: root finding and interpolation by SciPy, closed forms
with 40 digits by mpmath, simulations by NumPy.

Run with Python 3: python3 method_results.py (made with SciPy 1.17.1, NumPy 2.4.6, mpmath 1.3.0).
The definitions are those that the classes state; the curves are those of MethodChecks, ContrastChecks and ClosedFormCurve.
"""
import mpmath as mp
import numpy as np
from scipy.integrate import quad
from scipy.interpolate import PchipInterpolator
from scipy.optimize import brentq, minimize_scalar
from scipy.special import erf, j1


def softplus(z):
    return np.logaddexp(0, z)


def at(curve, density, low=-4.0, high=4.0):
    return brentq(lambda x: curve(x) - density, low, high, xtol=1e-14, rtol=1e-14)


def layer(base, gradient, toe):
    return lambda x: base + gradient * (0.2 * softplus((x - toe) / 0.2) - softplus(3 * (x - toe - 2.4)) / 3)


def logistic(base, rise, rate, middle):
    return lambda x: base + rise / (1 + np.exp(-rate * (x - middle)))


# ISO 5800: three layers; 0.15 above the unexposed film; sqrt(2) / sqrt(H_G H_slowest)
layers = {'red': layer(0.25, 0.60, -2.30), 'green': layer(0.55, 0.65, -2.45), 'blue': layer(0.80, 0.70, -2.60)}
points = {name: at(curve, base + 0.15) for (name, curve), base in zip(layers.items(), (0.25, 0.55, 0.80))}
print('ISO 5800', points, 'S', np.sqrt(2) / np.sqrt(10 ** points['green'] * 10 ** max(points.values())))

# ISO 2240: reversal; 0.20 above the least density, and 2.00 or where the line from there touches
for name, rise, rate in (('long', 3.2, -2.6), ('short', 2.3, -3.5)):
    curve = logistic(0.15, rise, rate, -0.9)
    least = curve(4.0)
    toe = at(curve, least + 0.20)
    limit = at(curve, least + 2.00)
    chord = lambda x: -(curve(x) - curve(toe)) / (toe - x)
    touching = minimize_scalar(chord, bounds=(limit, toe - 1e-3), method='bounded', options={'xatol': 1e-12}).x
    shoulder = touching if chord(touching) < chord(limit) - 1e-12 else limit
    print('ISO 2240', name, 'T', toe, 'S', shoulder, 'speed', 10 / 10 ** (0.5 * (toe + shoulder)))

# ISO 6846: paper; 0.04 above base plus fog to 0.90 of the net greatest density; 1000 / H at 0.60 above
paper = logistic(0.05, 2.0, 5.0, 0.3)
base = 0.05
greatest = paper(4.0)
print('ISO 6846 R', 100 * (at(paper, base + 0.9 * (greatest - base)) - at(paper, base + 0.04)),
      'P', 1000 / 10 ** at(paper, base + 0.60))

# average gradients of radiography: chord between two densities above base plus fog
medical = logistic(0.20, 3.6, 3.0, 0.0)
print('medical', 1.75 / (at(medical, 0.20 + 2.00) - at(medical, 0.20 + 0.25)))
industrial = logistic(0.25, 6.0, 1.2, 0.0)
print('industrial', 2.0 / (at(industrial, 0.25 + 3.50) - at(industrial, 0.25 + 1.50)),
      'gradient at 2.0', 1.2 * 6.0 * (2.0 / 6) * (1 - 2.0 / 6))

# speeds of radiography, the same curve in log gray: a constant over the kerma at 1.0 or 2.0 above base plus fog
print('screen and film', 1e-3 / 10 ** at(industrial, 1.25), 'dental', 1e-2 / 10 ** at(industrial, 1.25),
      'industrial', 1 / 10 ** at(industrial, 2.25))

# published points, read through SciPy's PCHIP (Fritsch and Butland's slopes)
published = {
    'density encoding': ([-2.721718645, -2.521718645, -2.321718645, -2.121718645, -1.921718645, -1.721718645,
                          -1.521718645, -1.321718645, -1.121718645, -0.926545676714876, 0.573454323285124],
                         [0.010, 0.028, 0.054, 0.095, 0.145, 0.220, 0.300, 0.400, 0.500, 0.600, 1.425]),
    'zones': ([(zone - 5) * 0.30103 for zone in range(11)],
              [.02, .11, .21, .34, .48, .62, .76, .97, 1.18, 1.33, 1.44])}
for name, (x, d) in published.items():
    curve = PchipInterpolator(x, d)
    speed = at(curve, 0.10, x[0], x[-1])
    print(name, 'speed point', speed, 'rise', curve(speed + 1.30) - curve(speed),
          'average gradient', (curve(speed + 1.50) - curve(speed)) / 1.50)

# the same points, straight between them
for name, (x, d) in published.items():
    straight = lambda at_x: np.interp(at_x, x, d)
    speed = np.interp(0.10, d, x)
    print(name, 'straight: speed point', speed, 'rise', straight(speed + 1.30) - straight(speed),
          'average gradient', (straight(speed + 1.50) - straight(speed)) / 1.50)

# curves of closed form (ClosedFormCurve of the tests), with 40 digits
mp.mp.dps = 40
BASE = mp.mpf('0.2')


def soft(z):
    return mp.log(1 + mp.exp(z))


closed_forms = {
    'LOGISTIC': lambda x: BASE + mp.mpf('1.4') / (1 + mp.exp(-mp.mpf('2.2') * x)),
    'SOFTPLUS_TOE': lambda x: BASE + mp.mpf('0.6') * soft(5 * (x + 2)) / 5,
    'SOFTPLUS_TOE_SHOULDER': lambda x: BASE + mp.mpf('0.65') * (soft(5 * (x + 2)) / 5 - soft(3 * (x - 1)) / 3),
    'HD1890': lambda x: BASE + mp.mpf('0.7') * mp.log10(1000 - 999 * mp.exp(-mp.mpf(10) ** (x + 2) / 1000))}
for name, curve in closed_forms.items():
    speed = mp.findroot(lambda x: curve(x) - BASE - mp.mpf('0.1'), -2)
    contrast = curve(speed + mp.mpf('1.3')) - curve(speed)
    average = (curve(speed + mp.mpf('1.5')) - curve(speed)) / mp.mpf('1.5')
    # contrast index: A and B on one line from (c, base), 0.2 and 2.2 from c
    c, angle = mp.findroot(
        lambda c, angle: [curve(c + r * mp.cos(angle)) - BASE - r * mp.sin(angle) for r in (mp.mpf('0.2'), mp.mpf('2.2'))],
        (speed - mp.mpf('0.2'), mp.atan(contrast / mp.mpf('1.3'))))
    lower = c + mp.mpf('0.2') * mp.cos(angle)
    fractional = mp.findroot(
        lambda x: mp.diff(curve, x) - mp.mpf('0.3') * (curve(x + mp.mpf('1.5')) - curve(x)) / mp.mpf('1.5'),
        speed - mp.mpf('0.25'))
    delta_x = mp.mpf('0.83') - mp.mpf('0.86') * contrast + mp.mpf('0.24') * contrast ** 2
    print(name, *(mp.nstr(value, 16) for value in (
        speed, contrast, average, mp.tan(angle), lower, curve(lower), c + mp.mpf('2.2') * mp.cos(angle), fractional,
        delta_x)))

# an edge on film, of log H -1.9 to -0.9 and Gaussian spread of 1.2 pixels, scanned with a Gaussian spread of 0.9
# (ScannedFilm of the tests, but on a line, without tilt and pixels): MTF50 of exposure divided by the scanner, over the true one
STEP, FILM, SCANNER = 0.01, 1.2, 0.9
place = np.arange(-40, 40 + STEP / 2, STEP)
light = 10 ** -1.9 + (10 ** -0.9 - 10 ** -1.9) * 0.5 * (1 + erf(place / FILM / np.sqrt(2)))
transmittance = 10 ** -(0.2 + 1.6 / (1 + np.exp(-1.6 * (np.log10(light) + 1.5))))
kernel = np.exp(-0.5 * (np.arange(-10, 10 + STEP / 2, STEP) / SCANNER) ** 2)
blurred = np.convolve(np.pad(transmittance, len(kernel) // 2, mode='edge'), kernel / kernel.sum(), 'valid')
exposure = 10 ** (-1.5 - np.log(1.6 / (-np.log10(blurred) - 0.2) - 1) / 1.6)
spread = np.gradient(exposure, STEP)


def quotient(f):
    transfer = abs(np.sum(spread * np.exp(-2j * np.pi * f * place))) / spread.sum()
    return transfer / np.exp(-2 * (np.pi * f * SCANNER) ** 2)


true50 = np.sqrt(np.log(2) / 2) / (np.pi * FILM)
print('quotient in exposure', brentq(lambda f: quotient(f) - 0.5, 0.01, 0.4) / true50)

# charts in control with limits from their first sessions: the share with an alarm in 52 more, by single values beyond three
# standard deviations or by the moving average of weight 0.2 (ControlChart)
random = np.random.default_rng(1)
for sessions in (10, 15, 20, 30, 50):
    first, then = random.standard_normal((100_000, sessions)), random.standard_normal((100_000, 52))
    centre, deviation = first.mean(1), abs(np.diff(first)).mean(1) / 1.128
    alarm = (abs(then - centre[:, None]) > 3 * deviation[:, None]).any(1)
    average = centre
    for i in range(52):
        average = 0.2 * then[:, i] + 0.8 * average
        alarm |= abs(average - centre) > 3 * deviation * np.sqrt(0.2 / 1.8 * (1 - 0.8 ** (2 * i + 2)))
    print('control chart,', sessions, 'sessions: u of sigma', np.sqrt(((deviation - 1) ** 2).mean()), 'alarms', alarm.mean())


# the eye's contrast sensitivity (PrintSharpness), its peak, and the integral of white noise behind it (PrintGraininess), a print
# 5 times as large at 400 mm, up to the 100 cycles per millimetre of a scan with a pitch of 5 micrometres
def sensitivity(f):
    return 2.6 * (0.0192 + 0.114 * f) * np.exp(-(0.114 * f) ** 1.1)


per_degree = 5 / (400 * np.radians(1))
peak = minimize_scalar(lambda f: -sensitivity(f), bounds=(1, 20), method='bounded', options={'xatol': 1e-9}).x
print('sensitivity at 4, peak, 16', sensitivity(4), peak, sensitivity(peak), sensitivity(16))
print('cycles per mm on film at 1 per degree', per_degree, 'integral', quad(
    lambda f: 2 * np.pi * f * sensitivity(f / per_degree) ** 2, 0, 100, limit=400)[0])

# what a scan knows of white noise through an aperture of 48 micrometres: the grid of a block of 32 pixels of 5 micrometres
frequency = np.fft.fftfreq(32, 5.0)
z = np.pi * 48 * np.hypot(frequency[:, None], frequency)
z[0, 0] = 1e-9
print('white noise through 48 micrometres, known part', np.sqrt(
    ((2 * j1(z) / z) ** 2).sum() * np.pi * 24 ** 2 / (32 * 5) ** 2))

"""Tail probabilities and quantiles; those that `check` asks for (normal, beta) in plain Python, the others by scipy.

Relative accuracy about 1e-12. Continued fractions as in Abramowitz and Stegun 1964, section 26.5.
"""

from __future__ import annotations

import math
from collections.abc import Callable

_TINY = 1e-300
_STEPS = 100_000


def normal_tail(z: float) -> float:
    """Probability that a standard normal value lies above z."""
    return 0.5 * math.erfc(z / math.sqrt(2))


def normal_quantile(probability: float) -> float:
    """The standard normal value below which a share `probability` (strictly between 0 and 1) lies."""
    if probability > 0.5:
        return -normal_quantile(1 - probability)
    # Start: Abramowitz and Stegun 26.2.23 (error below 4.5e-4); Halley's steps on erfc then make it exact.
    t = math.sqrt(-2 * math.log(probability))
    z = (2.515517 + 0.802853 * t + 0.010328 * t * t) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t
    for _ in range(3):
        error = (normal_tail(-z) - probability) * math.sqrt(2 * math.pi) * math.exp(z * z / 2)
        z -= error / (1 + z * error / 2)
    return z


def critical_value(confidence: float) -> float:
    """The normal quantile of a two-sided interval: 1.959964 for 0.95."""
    return -normal_quantile((1 - confidence) / 2)


def beta_tails(x: float, a: float, b: float) -> tuple[float, float]:
    """Probabilities that a Beta(a, b) value lies below x, and above it.

    Both are returned since 1 minus a tiny number is not a tiny number.
    """
    if x <= 0:
        return 0.0, 1.0
    if x >= 1:
        return 1.0, 0.0
    log_front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b) + a * math.log(x) + b * math.log1p(-x)
    if x < (a + 1) / (a + b + 2):
        below = math.exp(log_front) * _beta_fraction(x, a, b) / a
        return below, 1 - below
    above = math.exp(log_front) * _beta_fraction(1 - x, b, a) / b
    return 1 - above, above


def _beta_fraction(x: float, a: float, b: float) -> float:
    # Continued fraction 26.5.8 of Abramowitz and Stegun, by the modified Lentz algorithm.
    c, d = 1.0, 1 - (a + b) * x / (a + 1)
    d = 1 / (d if abs(d) > _TINY else _TINY)
    value = d
    for m in range(1, _STEPS):
        for term in (
            m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m)),
            -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1)),
        ):
            d = 1 + term * d
            d = 1 / (d if abs(d) > _TINY else _TINY)
            c = 1 + term / c
            c = c if abs(c) > _TINY else _TINY
            step = c * d
            value *= step
        if abs(step - 1) < 1e-15:
            return value
    raise ArithmeticError(f"the incomplete beta function did not settle at x={x}, a={a}, b={b}")


def beta_quantile(probability: float, a: float, b: float) -> float:
    """The value below which a share `probability` (strictly between 0 and 1) of Beta(a, b) lies."""
    log_norm = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    low, high, x = 0.0, 1.0, a / (a + b)
    for _ in range(2000):
        below, above = beta_tails(x, a, b)
        miss = below - probability if probability <= 0.5 else (1 - probability) - above
        if miss == 0:
            return x
        low, high = (low, x) if miss > 0 else (x, high)
        density = math.exp(log_norm + (a - 1) * math.log(x) + (b - 1) * math.log1p(-x))
        step = miss / density if density > 0 else math.inf
        new = x - step
        if not low < new < high:  # Newton left the bracket: halve it, by the geometric mean far from 1
            new = math.sqrt(low * high) if low > 0 and high < 0.1 else (low + high) / 2
        if abs(new - x) <= 4e-16 * x or new in (low, high):
            return new
        x = new
    return x


def student_quantile(probability: float, degrees_of_freedom: float) -> float:
    """The value below which a share `probability` of Student's t lies."""
    from scipy.special import stdtrit

    return float(stdtrit(degrees_of_freedom, probability))


def student_two_sided(t: float, degrees_of_freedom: float) -> float:
    """Probability that Student's t lies further from 0 than t, on either side."""
    from scipy.special import stdtr

    return 2 * float(stdtr(degrees_of_freedom, -abs(t)))


def chi_square_tail(value: float, degrees_of_freedom: float) -> float:
    """Probability that a chi-square value lies above `value`."""
    from scipy.special import chdtrc

    return float(chdtrc(degrees_of_freedom, value))


def chi_square_quantile(probability: float, degrees_of_freedom: float) -> float:
    """The value below which a share `probability` of chi-square lies."""
    from scipy.special import gammaincinv

    return 2 * float(gammaincinv(degrees_of_freedom / 2, probability))


def bracketed_root(function: Callable[[float], float], low: float, high: float) -> float:
    """The root of a function that changes sign between low and high, to the last digits of a float.

    Written here since scipy.optimize takes longer to be imported than a demonstration guide to be pooled.
    Anderson and Bjoerck 1973, BIT 13:253-264 (regula falsi with a scaled end), with a bisection whenever two steps
    have not halved the bracket. Raises ValueError where the ends have the same sign.
    """
    f_low, f_high = function(low), function(high)
    if f_low == 0:
        return low
    if f_high == 0:
        return high
    if (f_low > 0) == (f_high > 0):
        raise ValueError(f"no change of sign between {low} and {high}")
    width, slow = high - low, 0
    for _ in range(500):
        x = high - f_high * (high - low) / (f_high - f_low)
        if slow >= 2 or not min(low, high) < x < max(low, high):
            x, slow = (low + high) / 2, 0
        f_x = function(x)
        if f_x == 0 or x in (low, high) or abs(high - low) <= 4e-16 * max(abs(low), abs(high)):
            return x
        if (f_x > 0) == (f_high > 0):  # the root stays between low and x
            scale = 1 - f_x / f_high
            f_low *= scale if scale > 0 else 0.5
        else:
            low, f_low = high, f_high
        high, f_high = x, f_x
        slow = slow + 1 if abs(high - low) > width / 2 else 0
        width = abs(high - low)
    return (low + high) / 2

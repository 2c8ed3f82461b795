"""Entropy of dry air over temperature, by the heat capacities of its gases.

Shomate equations of the NIST Chemistry WebBook (from memory), after M. W. Chase, NIST-JANAF Thermochemical Tables, 4th
edition, 1998: c_p = A + B t + C t² + D t³ + E / t², t = T / 1000 K, J/(mol K); valid from 100 K to 2000 K.
"""

from math import log
from typing import NamedTuple

_GAS = 8.31446261815324  # J/(mol K), exact since 2019


class _Shomate(NamedTuple):
    """Coefficients up to a temperature, K; g is the constant of the entropy."""

    upto: float
    a: float
    b: float
    c: float
    d: float
    e: float
    g: float

    def entropy(self, kelvin: float) -> float:
        t = kelvin / 1000
        return (self.a * log(t) + self.b * t + self.c * t * t / 2 + self.d * t**3 / 3 - self.e / (2 * t * t)
                + self.g)  # fmt: skip


#: Share by volume, and the ranges of each gas.
_AIR: tuple[tuple[float, tuple[_Shomate, ...]], ...] = (
    (0.7809, (
        _Shomate(500, 28.98641, 1.853978, -9.647459, 16.63537, 0.000117, 226.4168),
        _Shomate(2000, 19.50583, 19.88705, -8.598535, 1.369784, 0.527601, 212.3900),
    )),
    (0.2095, (
        _Shomate(700, 31.32234, -20.23531, 57.86644, -36.50624, -0.007374, 246.7945),
        _Shomate(2000, 30.03235, 8.772972, -3.988133, 0.788313, -0.741599, 236.1663),
    )),
    (0.0096, (_Shomate(2000, 20.78600, 0.0, 0.0, 0.0, 0.0, 179.999),)),
)  # fmt: skip


def entropy(kelvin: float) -> float:
    """Entropy of dry air at 100 kPa over the gas constant, without that of mixing, which no compression changes."""
    if not 100 <= kelvin:
        raise ValueError(f"{kelvin:.4g} K is colder than any charge. Check temperature_at_inlet_closing and its unit")
    whole = sum(share * _range(ranges, kelvin).entropy(kelvin) for share, ranges in _AIR)
    return whole / _GAS


def _range(ranges: tuple[_Shomate, ...], kelvin: float) -> _Shomate:
    return next((each for each in ranges if kelvin <= each.upto), ranges[-1])

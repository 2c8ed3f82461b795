"""Where a correction of power leaves what its standard allows: '' where it does not, else the reason in words.

Same arguments as the corrections (correction.py). The value is given all the same, with the reason beside it.
"""

from collections.abc import Callable, Mapping

from logbook.specs import correction

_LOW, _HIGH = 0.93, 1.07
_SUCCESSOR_AT_REFERENCE = 1.04005  # of SAE J607 at 25 degC and 99 kPa dry, where SAE J1349 has 1


def _outside(name: str, factor: float, low: float = _LOW, high: float = _HIGH) -> str:
    if low <= factor <= high:
        return ""
    return (
        f"{factor:.3f} is outside the {low:.4g} to {high:.4g} that {name} allows: quote the observed power with its air"
    )


def outside_iso_1585(*, dry_air_pressure: float, air_temperature: float) -> str:
    """ISO 1585, spark ignition: 0.93 to 1.07."""
    return _outside(
        "ISO 1585", correction.correction_iso_1585(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature)
    )


def outside_iso_1585_compression(*, dry_air_pressure: float, air_temperature: float, fuel_delivery: float) -> str:
    """ISO 1585, compression ignition: 0.9 to 1.1."""
    factor = correction.correction_iso_1585_compression(
        dry_air_pressure=dry_air_pressure, air_temperature=air_temperature, fuel_delivery=fuel_delivery
    )
    return _outside("ISO 1585", factor, 0.9, 1.1)


def outside_sae_j1349(*, dry_air_pressure: float, air_temperature: float) -> str:
    """SAE J1349: 0.93 to 1.07, air of 15 to 35 degC, 90 to 105 kPa dry."""
    factor = correction.correction_sae_j1349(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature)
    celsius, kpa = air_temperature - 273.15, dry_air_pressure / 1e3
    reasons = [_outside("SAE J1349", factor)]
    if not 15 <= round(celsius, 9) <= 35:
        reasons.append(f"air of {celsius:.4g} degC is outside the 15 to 35 degC of SAE J1349")
    if not 90 <= kpa <= 105:
        reasons.append(f"{kpa:.4g} kPa dry is outside the 90 to 105 kPa of SAE J1349")
    return "; ".join(filter(None, reasons))


def outside_din_70020(*, air_pressure: float, air_temperature: float) -> str:
    """DIN 70020: the 0.93 to 1.07 of its successors."""
    factor = correction.correction_din_70020(air_pressure=air_pressure, air_temperature=air_temperature)
    return _outside("the successors of DIN 70020", factor).replace("allows", "allow")


def outside_sae_j607(*, dry_air_pressure: float, air_temperature: float) -> str:
    """SAE J607: the 0.93 to 1.07 of its successor, counted from the reference of that."""
    factor = correction.correction_sae_j607(dry_air_pressure=dry_air_pressure, air_temperature=air_temperature)
    low, high = _LOW * _SUCCESSOR_AT_REFERENCE, _HIGH * _SUCCESSOR_AT_REFERENCE
    return _outside("the successor of SAE J607", factor, round(low, 3), round(high, 3))


#: By the name of the correction.
OUTSIDE: Mapping[str, Callable[..., str]] = {
    "correction_iso_1585": outside_iso_1585,
    "correction_iso_1585_compression": outside_iso_1585_compression,
    "correction_sae_j1349": outside_sae_j1349,
    "correction_din_70020": outside_din_70020,
    "correction_sae_j607": outside_sae_j607,
}

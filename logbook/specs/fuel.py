"""Fuel: how much of it the air burns, and how it gets there.

Stoichiometry:  stoichiometric_ratio_of_composition, stoichiometric_ratio_of_ethanol, stoichiometric_ratio_of_blend,
                ethanol_mass_share
Heat:           lower_heating_value_of_ethanol
Mixture:        air_fuel_ratio, air_fuel_ratio_of_air_ratio, air_ratio, fuel_flow
Injectors:      injector_pressure, injector_flow_in_use, injector_duty_of_pulse, injector_duty_of_demand

Ratios of air to fuel are by mass. The air ratio is lambda, λ: above 1 is lean. Flows in kg/s and m3/s, pressures in Pa,
times in s, engine speed in revolutions per second.
"""

from math import sqrt

from logbook.specs.every import Every
from logbook.specs.possible import above_zero

#: g/mol (IUPAC 2021, abridged), and of dry air for each mole of oxygen: 1 O2 with 3.773 of nitrogen and argon.
_CARBON, _HYDROGEN, _OXYGEN = 12.011, 1.008, 15.999
_AIR_OF_OXYGEN = 2 * _OXYGEN + 3.773 * 28.16

_PETROL_DENSITY, _ETHANOL_DENSITY = 745.0, 789.0  # kg/m3, 15 to 20 °C
PETROL_RATIO, ETHANOL_RATIO = 14.6, 9.0
_PETROL_HEAT, _ETHANOL_HEAT = 44.0e6, 26.80e6  # J/kg


def stoichiometric_ratio_of_composition(*, fuel_hydrogen: float, fuel_oxygen: float) -> float:
    """Stoichiometric air to fuel ratio of a fuel of known composition, C H_y O_z.

    (1 + y/4 − z/2) (2 M_O + 3.773 · 28.16) / (M_C + y M_H + z M_O)

    fuel_hydrogen [bare]: hydrogen atoms for each of carbon, y: 2.25 for iso-octane, 1.87 for petrol, 3 for ethanol.
    fuel_oxygen [bare]: oxygen atoms for each of carbon, z: 0 for hydrocarbons, 0.5 for ethanol.
    Returns [bare]: by mass.
    Validity: dry air of 20.95 % oxygen; with 21 % it is 0.6 % less. No sulphur, no water in the fuel.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 3.6 (from memory).

    >>> round(stoichiometric_ratio_of_composition(fuel_hydrogen=2.25, fuel_oxygen=0), 2)
    15.13
    """
    oxygen = 1 + fuel_hydrogen / 4 - fuel_oxygen / 2
    if not (fuel_hydrogen >= 0 and fuel_oxygen >= 0 and oxygen > 0):
        raise ValueError(
            f"a fuel with {fuel_hydrogen:.4g} hydrogen and {fuel_oxygen:.4g} oxygen atoms for each of carbon burns "
            "nothing. Check fuel_hydrogen and fuel_oxygen"
        )
    return oxygen * _AIR_OF_OXYGEN / (_CARBON + fuel_hydrogen * _HYDROGEN + fuel_oxygen * _OXYGEN)


def stoichiometric_ratio_of_ethanol(*, ethanol_mass_share: float) -> float:
    """Stoichiometric air to fuel ratio of petrol with ethanol.

    w · 9.0 + (1 − w) · 14.6

    ethanol_mass_share [share]: ethanol in the fuel BY MASS, w.
    Returns [bare]: by mass.
    Validity: petrol of 14.6 without ethanol; 14.3 to 14.8 are sold. What the pump says is by volume.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, appendix D (from memory): petrol 14.6,
        ethanol 9.00.

    >>> round(stoichiometric_ratio_of_ethanol(ethanol_mass_share=0.10528), 2)
    14.01
    """
    return stoichiometric_ratio_of_blend(
        stoichiometric_ratio=(ETHANOL_RATIO, PETROL_RATIO), mass_share=(ethanol_mass_share, 1 - ethanol_mass_share)
    )


def stoichiometric_ratio_of_blend(*, stoichiometric_ratio: Every, mass_share: Every) -> float:
    """Stoichiometric air to fuel ratio of a blend.

    Σ w_i · r_i

    stoichiometric_ratio [bare]: of each fuel in it, r_i.
    mass_share [share]: of each fuel BY MASS, w_i; together 1.
    Returns [bare]: by mass.
    Validity: exact, since the air that each fuel wants adds up.
    Source: [1] Conservation of mass.

    >>> round(stoichiometric_ratio_of_blend(stoichiometric_ratio=[9.0, 14.6], mass_share=[0.85, 0.15]), 2)
    9.84
    """
    if len(stoichiometric_ratio) != len(mass_share) or not mass_share:
        raise ValueError("a blend wants a share for each of its fuels. Check stoichiometric_ratio and mass_share")
    if min(mass_share) < 0 or abs(sum(mass_share) - 1) > 1e-9:
        raise ValueError(
            f"the shares of a blend lie between 0 and 100 % and make 100 %, not {100 * sum(mass_share):.5g} %. Check "
            "mass_share: by mass, not by volume"
        )
    return sum(share * ratio for share, ratio in zip(mass_share, stoichiometric_ratio, strict=True))


def ethanol_mass_share(*, ethanol_content: float) -> float:
    """Ethanol in the fuel by mass, from what it is by volume.

    w = v ρ_e / (v ρ_e + (1 − v) ρ_p)

    ethanol_content [share]: by volume, as the pump says it, v: 0.10 of E10.
    Returns [share]: by mass.
    Validity: ethanol of 789, petrol of 745 kg/m3 (720 to 775 are sold); shrinking on mixing left aside.
    Source: [1] Definition; densities from EN 228 and tables, from memory.

    >>> round(ethanol_mass_share(ethanol_content=0.10), 5)
    0.10528
    """
    if not 0 <= ethanol_content <= 1:
        raise ValueError(
            f"{100 * ethanol_content:.4g} % of ethanol cannot be: 0 to 100 %. Check ethanol_content, by volume"
        )
    heavy = ethanol_content * _ETHANOL_DENSITY
    return heavy / (heavy + (1 - ethanol_content) * _PETROL_DENSITY)


def lower_heating_value_of_ethanol(*, ethanol_mass_share: float) -> float:
    """Lower heating value of petrol with ethanol: the heat of burning, the water left as vapour.

    w · 26.80 + (1 − w) · 44.0 MJ/kg

    ethanol_mass_share [share]: ethanol in the fuel BY MASS, w.
    Returns [J/kg]: of the liquid.
    Validity: petrol of 44.0 MJ/kg without ethanol; 42.5 to 44.5 are sold. For another fuel state its own: iso-octane
        44.34, methanol 19.93, methane 50.03, propane 46.35 (gas), hydrogen 119.95 MJ/kg. The higher heating value is 6
        to 10 % more, and no engine has it.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, appendix D (from memory): petrol 44.0.
    Source: [2] Standard enthalpies of formation at 25 °C: ethanol, liquid, −277.6 kJ/mol, and the other fuels.

    >>> round(lower_heating_value_of_ethanol(ethanol_mass_share=0.10528) / 1e6, 2)
    42.19
    """
    if not 0 <= ethanol_mass_share <= 1:
        raise ValueError(f"{100 * ethanol_mass_share:.4g} % of ethanol cannot be: 0 to 100 %. Check ethanol_mass_share")
    return ethanol_mass_share * _ETHANOL_HEAT + (1 - ethanol_mass_share) * _PETROL_HEAT


def air_fuel_ratio(*, air_flow: float, fuel_flow: float) -> float:
    """Air to fuel ratio, by mass.

    ṁ_air / ṁ_fuel

    air_flow [kg/s]: ṁ_air.
    fuel_flow [kg/s]: ṁ_fuel.
    Returns [bare].
    Validity: both of the same engine at the same time; over valve overlap air passes that burns nothing.
    Source: [1] Definition.

    >>> round(air_fuel_ratio(air_flow=0.100, fuel_flow=0.008), 4)
    12.5
    """
    above_zero(air_flow=air_flow, fuel_flow=fuel_flow)
    return air_flow / fuel_flow


def air_fuel_ratio_of_air_ratio(*, air_ratio: float, stoichiometric_ratio: float) -> float:
    """Air to fuel ratio from lambda.

    λ · r_st

    air_ratio [bare]: lambda, λ.
    stoichiometric_ratio [bare]: of the fuel that was in the tank, r_st.
    Returns [bare]: by mass.
    Validity: a gauge that shows air to fuel has a fuel of its own built in, mostly 14.7: keep lambda.
    Source: [1] Definition.

    >>> round(air_fuel_ratio_of_air_ratio(air_ratio=0.88, stoichiometric_ratio=14.6), 3)
    12.848
    """
    above_zero(air_ratio=air_ratio, stoichiometric_ratio=stoichiometric_ratio)
    return air_ratio * stoichiometric_ratio


def air_ratio(*, air_fuel_ratio: float, stoichiometric_ratio: float) -> float:
    """Air ratio, lambda.

    λ = (air / fuel) / r_st

    air_fuel_ratio [bare]: by mass, of this fuel.
    stoichiometric_ratio [bare]: of the same fuel, r_st.
    Returns [bare]: above 1 lean, below 1 rich.
    Validity: the same fuel in both figures.
    Source: [1] J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, equation 3.9 (from memory).

    >>> round(air_ratio(air_fuel_ratio=12.5, stoichiometric_ratio=14.6), 3)
    0.856
    """
    above_zero(air_fuel_ratio=air_fuel_ratio, stoichiometric_ratio=stoichiometric_ratio)
    return air_fuel_ratio / stoichiometric_ratio


def fuel_flow(*, air_flow: float, air_ratio: float, stoichiometric_ratio: float) -> float:
    """Fuel mass flow that an air flow wants.

    ṁ_fuel = ṁ_air / (λ r_st)

    air_flow [kg/s]: ṁ_air.
    air_ratio [bare]: lambda, λ.
    stoichiometric_ratio [bare]: of the fuel, r_st.
    Returns [kg/s].
    Validity: all air stays in the cylinder.
    Source: [1] Definition of lambda.

    >>> round(fuel_flow(air_flow=0.1, air_ratio=0.88, stoichiometric_ratio=14.6) * 3600, 2)
    28.02
    """
    above_zero(air_flow=air_flow, air_ratio=air_ratio, stoichiometric_ratio=stoichiometric_ratio)
    return air_flow / (air_ratio * stoichiometric_ratio)


def injector_pressure(*, fuel_pressure: float, boost_pressure: float) -> float:
    """Pressure across the injector: what stands in the rail less what it sprays against.

    Δp = p_rail − p_boost

    fuel_pressure [Pa gauge]: in the rail, against the air outside, p_rail.
    boost_pressure [Pa gauge]: in the inlet manifold, against the air outside, p_boost; 0 at full throttle without
        boost.
    Returns [Pa].
    Validity: a rail whose regulator does not follow the manifold; where it does, the pressure across is what it was
        set to.
    Source: [1] Definition.

    >>> injector_pressure(fuel_pressure=3e5, boost_pressure=0.7e5)
    230000.0
    """
    if not fuel_pressure > boost_pressure:
        raise ValueError(
            f"a rail of {fuel_pressure / 1e5:.4g} bar sprays nothing against {boost_pressure / 1e5:.4g} bar of boost. "
            "Check fuel_pressure and boost_pressure: both above the air outside"
        )
    return fuel_pressure - boost_pressure


def injector_flow_in_use(*, injector_flow: float, injector_rated_pressure: float, injector_pressure: float) -> float:
    """Injector flow at the pressure in use.

    Q₂ = Q₁ √(Δp₂ / Δp₁)

    injector_flow [m3/s]: held open at its rated pressure, Q₁.
    injector_rated_pressure [Pa]: at which that was measured, Δp₁.
    injector_pressure [Pa]: across the injector in use, Δp₂.
    Returns [m3/s].
    Validity: the same liquid; a port injector up to about twice its rated pressure, beyond which it may not open.
    Source: [1] Bernoulli's equation; common practice, no source.

    >>> flow = injector_flow_in_use(injector_flow=4e-6, injector_rated_pressure=3e5, injector_pressure=4e5)
    >>> round(flow * 6e7, 2)
    277.13
    """
    above_zero(injector_rated_pressure=injector_rated_pressure, injector_pressure=injector_pressure)
    above_zero(injector_flow=injector_flow)
    return injector_flow * sqrt(injector_pressure / injector_rated_pressure)


def injector_duty_of_pulse(*, injector_open_time: float, engine_speed: float) -> float:
    """Injector duty from its pulse: one pulse for each cycle of a four-stroke engine.

    t · N / 2

    injector_open_time [s]: electrical pulse, t, dead time within it.
    engine_speed [1/s]: N.
    Returns [share]: above 0.85 to 0.90 an injector is no longer governed, by common practice; 1 is always open.
    Validity: sequential injection. Fired every turn it is twice as much.
    Source: [1] Two turns for each cycle; common practice, no source.

    >>> injector_duty_of_pulse(injector_open_time=0.012, engine_speed=100)
    0.6
    """
    above_zero(injector_open_time=injector_open_time, engine_speed=engine_speed)
    return injector_open_time * engine_speed / 2


def injector_duty_of_demand(
    *, fuel_flow: float, fuel_density: float, injector_flow_in_use: float, injectors_fitted: float
) -> float:
    """Injector duty that a fuel flow wants.

    ṁ / (ρ n Q)

    fuel_flow [kg/s]: of the engine, ṁ.
    fuel_density [kg/m3]: ρ.
    injector_flow_in_use [m3/s]: of one injector, held open at the pressure in use, Q.
    injectors_fitted [bare]: n.
    Returns [share]: above 1 they cannot deliver it; above 0.85 to 0.90 they are no longer governed, by common practice.
    Validity: without the dead time, 6 % of the cycle at 6000 rpm and 1.2 ms.
    Source: [1] Conservation of mass; common practice, no source.

    >>> duty = injector_duty_of_demand(fuel_flow=0.008, fuel_density=745, injector_flow_in_use=4e-6, injectors_fitted=4)
    >>> round(duty, 3)
    0.671
    """
    above_zero(fuel_flow=fuel_flow, fuel_density=fuel_density, injector_flow_in_use=injector_flow_in_use)
    above_zero(injectors_fitted=injectors_fitted)
    return fuel_flow / (fuel_density * injectors_fitted * injector_flow_in_use)

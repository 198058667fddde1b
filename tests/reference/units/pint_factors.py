"""Writes pint_factors.csv: conversion factors to coherent SI, from the units library pint.

Run from anywhere after `pip install pint==0.25.3`:  python pint_factors.py
"""

import csv
import pathlib

import pint

DEFINITIONS = {
    "mil": "inch / 1000", "in": "inch", "ft": "foot", "yd": "yard", "mi": "mile",
    "mm": "mm", "cm": "cm", "m": "m", "km": "km",
    "in2": "inch**2", "ft2": "foot**2", "yd2": "yard**2",
    "mm2": "mm**2", "cm2": "cm**2", "m2": "m**2",
    "in3": "inch**3", "ft3": "foot**3", "yd3": "yard**3",
    "floz": "fluid_ounce", "pint": "pint", "qt": "quart", "gal": "gallon",
    "ml": "milliliter", "l": "liter", "m3": "m**3",
    "gr": "grain", "oz": "ounce", "lb": "pound",
    "ng": "nanogram", "mg": "milligram", "g": "gram", "kg": "kilogram",
    "lbf": "force_pound", "N": "newton",
    "psf": "force_pound / foot**2", "psi": "psi", "inHg": "inch_Hg",
    "Pa": "pascal", "kPa": "kilopascal",
    "s": "second", "min": "minute", "h": "hour", "day": "day", "week": "week",
    "J": "joule", "kJ": "kilojoule", "MJ": "megajoule",
    "Btu": "Btu_it", "kBtu": "1000 * Btu_it", "MMBtu": "1000000 * Btu_it",
    "Wh": "watt * hour", "kWh": "kilowatt * hour", "W": "watt", "kW": "kilowatt",
    "perm": "grain / hour / foot**2 / inch_Hg",
    "perm_in": "grain / hour / foot**2 / inch_Hg * inch",
    "cfm": "foot**3 / minute",
    "K": "kelvin", "°C": "delta_degC", "°F": "delta_degF", "deg": "degree", "%": "percent",
    "h ft2 °F per Btu": "hour * foot**2 * delta_degF / Btu_it",
    "Btu in per h ft2 °F": "Btu_it * inch / hour / foot**2 / delta_degF",
    "Btu per lb °F": "Btu_it / pound / delta_degF",
    "gr per h ft2": "grain / hour / foot**2",
    "ng per Pa s m2": "nanogram / pascal / second / m**2",
    "pint per day": "pint / day",
    "lbf per in": "force_pound / inch",
}

registry = pint.UnitRegistry()
path = pathlib.Path(__file__).with_suffix(".csv")
with path.open("w", newline="", encoding="utf-8") as file:
    file.write(f"# Written by pint_factors.py with pint {pint.__version__}.\n")
    rows = csv.writer(file, lineterminator="\n")
    rows.writerow(["unit", "factor", "definition"])
    for unit, definition in DEFINITIONS.items():
        factor = registry.Quantity(1, registry.parse_expression(definition).units)
        scale = registry.parse_expression(definition).magnitude
        rows.writerow([unit, repr(float(factor.to_base_units().magnitude * scale)), definition])

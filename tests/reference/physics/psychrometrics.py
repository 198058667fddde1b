"""Moist air over a grid, by psychrolib (ASHRAE Fundamentals 2017): writes psychrometrics.csv."""
import csv
import pathlib

import psychrolib as ps

ps.SetUnitSystem(ps.SI)
here = pathlib.Path(__file__).parent
with open(here / "psychrometrics.csv", "w", newline="") as out:
    w = csv.writer(out, lineterminator="\n")
    w.writerow(["t_c", "rh", "p_pa", "p_sat_pa", "dew_point_c", "humidity_ratio", "wet_bulb_c", "enthalpy_j_kg", "density_kg_m3"])
    for p in (101325.0, 85000.0):
        for t in range(-20, 51, 5):
            for rh in (0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 0.98, 1.0, 0.15, 0.25):
                ratio = ps.GetHumRatioFromRelHum(t, rh, p)
                w.writerow([
                    t, rh, p,
                    f"{ps.GetSatVapPres(t):.6f}",
                    f"{ps.GetTDewPointFromRelHum(t, rh):.6f}",
                    f"{ratio:.10f}",
                    f"{ps.GetTWetBulbFromRelHum(t, rh, p):.6f}",
                    f"{ps.GetMoistAirEnthalpy(t, ratio):.4f}",
                    f"{ps.GetMoistAirDensity(t, ratio, p):.8f}",
                ])

"""Means and two days of an open hourly set: writes greensboro_months.csv and greensboro_hours.csv.

The set is the typical year of Greensboro, NC that pvlib carries (723170TYA.CSV, TMY3, public domain).
The excerpt keeps the file's own header and the columns this project reads, for 1 and 2 July.
"""
import csv
import pathlib

import pandas as pd
import pvlib

here = pathlib.Path(__file__).parent
source = pathlib.Path(pvlib.__file__).parent / "data" / "723170TYA.CSV"
keep = ["Date (MM/DD/YYYY)", "Time (HH:MM)", "Dry-bulb (C)", "Dew-point (C)", "RHum (%)", "Pressure (mbar)", "Wspd (m/s)"]
lines = source.read_text().splitlines()
rows = list(csv.reader(lines))
columns = [rows[1].index(name) for name in keep]
with open(here / "greensboro_hours.csv", "w", newline="") as out:
    out.write(lines[0] + "\n")
    w = csv.writer(out, lineterminator="\n")
    w.writerow(keep)
    for row in rows[2:]:
        if row[0][:5] in ("07/01", "07/02"):
            w.writerow([row[c] for c in columns])

table = pd.DataFrame([[row[c] for c in columns] for row in rows[2:]], columns=keep)
for name in keep[2:]:
    table[name] = table[name].astype(float)
table["month"] = table[keep[0]].str[:2].astype(int)
table["day"] = table[keep[0]].str[:5]
daily = table.groupby("day")["Dry-bulb (C)"].agg(["max", "min"])
daily["month"] = daily.index.str[:2].astype(int)
ranges = (daily["max"] - daily["min"]).groupby(daily["month"]).mean()
spread = table.groupby(["month", "day"])[["Dry-bulb (C)", "Dew-point (C)"]].mean().groupby("month").std()
with open(here / "greensboro_months.csv", "w", newline="") as out:
    out.write("# Means of the typical year (TMY3) of Greensboro, NC; spreads are of the days' means.\n")
    w = csv.writer(out, lineterminator="\n")
    w.writerow(["month", "temperature_c", "relative_humidity_pct", "daily_range_c", "wind_m_s", "mean_dew_point", "spread_temperature", "spread_dew_point"])
    for month, part in table.groupby("month"):
        w.writerow([month] + [f"{v:.2f}" for v in (
            part["Dry-bulb (C)"].mean(), part["RHum (%)"].mean(), ranges[month], part["Wspd (m/s)"].mean(),
            part["Dew-point (C)"].mean(), spread.loc[month, "Dry-bulb (C)"], spread.loc[month, "Dew-point (C)"])])

# The whole year, cut down to what the project reads, as a plain CSV for the reader of mapped columns.
with open(here / "greensboro_year.csv", "w", newline="") as out:
    out.write("# Typical year (TMY3) of Greensboro, NC, station 723170 at 273 m, cut down to five columns: a work of the\n")
    out.write("# US Department of Energy's laboratory NREL, free to use; taken from the package pvlib (BSD-3-Clause).\n")
    out.write("month,day,hour,dry_bulb_c,rh_pct,pressure_hpa,wind_m_s\n")
    for month, day, hour, t, rh, p, wind in zip(table["month"], table["day"].str[3:].astype(int),
                                                 table[keep[1]].str[:2].astype(int), table[keep[2]], table[keep[4]],
                                                 table[keep[5]], table[keep[6]]):
        out.write(f"{month},{day},{hour},{t:g},{rh:g},{p:g},{wind:g}\n")

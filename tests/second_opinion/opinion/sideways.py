"""Sideways demand: METHOD 10, EN 1991-1-4 with the recommended values."""

import math

TERRAIN = {"0": (0.003, 1.0), "I": (0.01, 1.0), "II": (0.05, 2.0), "III": (0.3, 5.0), "IV": (1.0, 10.0)}


def q_p(v_b, terrain, z):
    """Peak velocity pressure, kN/m2."""
    z0, z_min = TERRAIN[terrain]
    z = max(z, z_min)
    kr = 0.19 * (z0 / 0.05) ** 0.07
    log = math.log(z / z0)
    return (1 + 7 / log) * 0.5 * 1.25 * (kr * log * v_b) ** 2 / 1e3


def demand(wall, v_kn):
    """(along, across) in kN."""
    job = wall.job
    wind = 0.0
    if job["wall"].get("outside_wall"):
        site = job["site"]
        if site.get("gust_m_s"):
            q = 0.613 * site["gust_m_s"] ** 2 / 1e3
        else:
            q = q_p(site["wind_m_s"], site["terrain"], wall.soffit)
        ties = [z for z in [*wall.levels, wall.top] if z > wall.soffit + 1e-9]
        wind = q * 1.2 * wall.width * (min(ties) - wall.soffit) / 2
    return 0.025 * v_kn, max(0.025 * v_kn, wind + 0.01 * v_kn)

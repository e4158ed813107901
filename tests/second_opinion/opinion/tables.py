"""Numbers METHOD names, and section properties worked out from outlines.

Every number stands in METHOD, in EN 10365 (outlines of open sections, from
memory) or follows from the rounding rules of EN 10210-2 for hot finished
hollow sections (outer corner 1.5 t, inner corner 1.0 t).
"""

import math
import re

E_STEEL = 210_000.0
G_STEEL = 81_000.0
FY_TUBE = 235.0

DENSITY = {
    "clay_brick": 19.0,
    "calcium_silicate_brick": 19.0,
    "dense_block": 20.0,
    "medium_block": 14.0,
    "aerated_block": 7.0,
}
PLASTER = 17.0
GLAZING = 0.35
UNIT = {
    "clay_brick": 10.0,
    "calcium_silicate_brick": 14.0,
    "dense_block": 7.3,
    "medium_block": 3.6,
    "aerated_block": 2.9,
}
GROUND_KPA = {
    "soft_clay": 40.0,
    "firm_clay": 75.0,
    "stiff_clay": 150.0,
    "loose_sand": 50.0,
    "dense_sand": 150.0,
    "gravel": 200.0,
    "rock": 500.0,
    "unknown": 40.0,
}
# Length, breadth, total thickness in mm and the number of crossed layers.
BOARDS = [
    (450, 225, 38, 1),
    (600, 225, 63, 1),
    (900, 225, 75, 1),
    (900, 250, 125, 1),
    (450, 900, 150, 2),
    (600, 1200, 200, 2),
]

# h, b, web, flange, root radius in mm.
OPEN = {
    "UB127x76x13": (127.0, 76.0, 4.0, 7.6, 7.6),
    "UB152x89x16": (152.4, 88.7, 4.5, 7.7, 7.6),
    "UB178x102x19": (177.8, 101.2, 4.8, 7.9, 7.6),
    "UB203x102x23": (203.2, 101.8, 5.4, 9.3, 7.6),
    "UB203x133x25": (203.2, 133.2, 5.7, 7.8, 7.6),
    "UB203x133x30": (206.8, 133.9, 6.4, 9.6, 7.6),
    "UC152x152x23": (152.4, 152.2, 5.8, 6.8, 7.6),
    "UC152x152x30": (157.6, 152.9, 6.5, 9.4, 7.6),
    "UC152x152x37": (161.8, 154.4, 8.0, 11.5, 7.6),
    "UC203x203x46": (203.2, 203.6, 7.2, 11.0, 10.2),
}
# EN 338:2016: bending, compression across the grain, shear, mean stiffness, mean density kg/m3.
TIMBER = {
    "C16": (16.0, 2.2, 3.2, 8000.0, 370.0),
    "C24": (24.0, 2.5, 4.0, 11000.0, 420.0),
    "D40": (40.0, 5.5, 4.2, 13000.0, 660.0),
}


def _open(name, fy):
    h, b, tw, tf, r = OPEN[name]
    hw = h - 2 * tf
    fillet = (1 - math.pi / 4) * r * r
    # Centroid of a fillet from its two faces.
    off = r * (1 - (10 - 3 * math.pi) / (12 - 3 * math.pi)) if r else 0.0
    lever = h / 2 - tf - (r - off) if r else 0.0
    area = 2 * b * tf + hw * tw + 4 * fillet
    iy = (b * h**3 - (b - tw) * hw**3) / 12 + 4 * fillet * lever**2
    iz = (2 * tf * b**3 + hw * tw**3) / 12 + 4 * fillet * (tw / 2 + r - off) ** 2
    wpl = b * tf * (h - tf) + tw * hw**2 / 4 + 4 * fillet * lever
    # Junctions of web and flange after the usual formula for rolled sections.
    alpha = -0.042 + 0.2204 * tw / tf + 0.1355 * r / tf - 0.0865 * r * tw / tf**2 - 0.0725 * tw**2 / tf**2
    circle = ((tf + r) ** 2 + (r + 0.25 * tw) * tw) / (2 * r + tf)
    it = (2 * b * tf**3 + hw * tw**3) / 3 + 2 * alpha * circle**4 - 0.42 * tf**4
    iw = iz * (h - tf) ** 2 / 4
    eps = math.sqrt(235.0 / fy)
    flange = ((b - tw) / 2 - r) / tf / eps
    web = (hw - 2 * r) / tw / eps
    klass = 1 if flange <= 9 and web <= 72 else 2 if flange <= 10 and web <= 83 else 3 if flange <= 14 and web <= 124 else 4
    av = max(area - 2 * b * tf + (tw + 2 * r) * tf, hw * tw)
    return dict(name=name, kind="open", h=h, b=b, tw=tw, tf=tf, r=r, hw=hw, A=area, I=iy, Iz=iz, It=it, Iw=iw,
                Wel=iy / (h / 2), Wpl=wpl, klass=klass, Av=av, fy=fy, mass=area * 7850e-6, E=E_STEEL)


def _hollow(name, h, b, t, fy):
    ro, ri = 1.5 * t, 1.0 * t

    def solid(hh, bb, rr):
        cut = (1 - math.pi / 4) * rr * rr
        off = rr * (10 - 3 * math.pi) / (12 - 3 * math.pi)
        cut_own = (1 / 3 - math.pi / 16 - 1 / (9 * (4 - math.pi))) * rr**4
        arm = hh / 2 - off
        a = hh * bb - 4 * cut
        i = bb * hh**3 / 12 - 4 * (cut_own + cut * arm**2)
        w = bb * hh**2 / 4 - 4 * cut * arm
        return a, i, w

    ao, io, wo = solid(h, b, ro)
    ai, ii, wi = solid(h - 2 * t, b - 2 * t, ri)
    area, iy, wpl = ao - ai, io - ii, wo - wi
    _, izo, _ = solid(b, h, ro)
    _, izi, _ = solid(b - 2 * t, h - 2 * t, ri)
    eps = math.sqrt(235.0 / fy)
    flange = (b - 3 * t) / t / eps
    web = (h - 3 * t) / t / eps
    klass = 1 if flange <= 33 and web <= 72 else 2 if flange <= 38 and web <= 83 else 3 if flange <= 42 and web <= 124 else 4
    return dict(name=name, kind="hollow", h=h, b=b, t=t, A=area, I=iy, Iz=izo - izi, Wel=iy / (h / 2), Wpl=wpl,
                klass=klass, Av=area * h / (b + h), fy=fy, mass=area * 7850e-6, E=E_STEEL)


def section(text):
    """Properties of a section named as the contract writes it."""
    timber = re.fullmatch(r"(C16|C24|D40) (\d+)x(\d+)", text)
    if timber:
        grade, b, h = timber.group(1), float(timber.group(2)), float(timber.group(3))
        fm, fc90, fv, e_mean, rho = TIMBER[grade]
        return dict(name=text, kind="timber", h=h, b=b, A=b * h, I=b * h**3 / 12, Wel=b * h * h / 6, E=e_mean,
                    fm=fm, fc90=fc90, fv=fv, mass=b * h * 1e-6 * rho, grade=grade)
    base, _, grade = text.partition(" ")
    if base in OPEN:
        return _open(base, 355.0 if grade == "S355" else 275.0)
    sizes = re.fullmatch(r"(SHS|RHS)([\d.]+)x([\d.]+)x([\d.]+)", base)
    h, b, t = (float(sizes.group(i)) for i in (2, 3, 4))
    return _hollow(base, h, b, t, 275.0 if grade == "S275" else 355.0)


def kmod(days):
    """EN 1995-1-1 Table 3.1, solid timber, service class 3."""
    if days <= 7:
        return 0.70
    if days <= 182:
        return 0.65
    return 0.55

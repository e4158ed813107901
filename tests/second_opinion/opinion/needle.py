"""The needle as a beam on two props: METHOD 7, EN 1993-1-1, EN 1993-1-5 and EN 1995-1-1."""

import math

import numpy as np

from . import tables as T

GAMMA_M = 1.1
SHIFT = 25.0
BEYOND = 150.0
STIFF = 100.0
SHIFTS = [(a, b) for a in (-SHIFT, SHIFT) for b in (-SHIFT, SHIFT)]


def reactions(parts, yo, yi):
    """Reactions (outside, inside) of a simple beam to (y1, y2, kN) parts."""
    ro = sum(p * (yi - (a + b) / 2) for a, b, p in parts) / (yi - yo)
    return ro, sum(p for _, _, p in parts) - ro


def prop_loads(parts, own, yo, yi):
    """Largest reaction at each prop with both axes moved 25 mm in the worst sense."""
    parts = parts + [own]
    both = [reactions(parts, yo + a, yi + b) for a, b in SHIFTS]
    return max(r[0] for r in both), max(r[1] for r in both)


def section_forces(parts, own, yo, yi, n=241):
    """(y, V, M) along the needle; kN and kNm."""
    parts = parts + [own]
    ro, ri = reactions(parts, yo, yi)
    marks = sorted({yo, yi, *(v for a, b, _ in parts for v in (a, b))})
    ys = np.unique(np.concatenate([np.linspace(own[0], own[1], n), marks]))
    v, m = np.zeros_like(ys), np.zeros_like(ys)
    for at, r in ((yo, ro), (yi, ri)):
        v += np.where(ys > at, r, 0.0)
        m += r * np.maximum(0.0, ys - at) / 1e3
    for a, b, p in parts:
        cover = np.clip(ys - a, 0.0, b - a)
        v -= p * cover / (b - a)
        m -= p * cover / (b - a) * (ys - a - cover / 2) / 1e3
    # The shear just left of a prop counts too.
    return ys, v, m, ro, ri


def deflection(parts, own, yo, yi, e_i):
    """Largest deflection between the props in mm, by double integration; e_i in N mm2."""
    ys, _, m, _, _ = section_forces(parts, own, yo, yi, n=401)
    keep = (ys >= yo - 1e-9) & (ys <= yi + 1e-9)
    y, curve = ys[keep], m[keep] * 1e6 / e_i
    step = np.diff(y)
    slope = np.concatenate([[0.0], np.cumsum((curve[1:] + curve[:-1]) / 2 * step)])
    sag = np.concatenate([[0.0], np.cumsum((slope[1:] + slope[:-1]) / 2 * step)])
    line = sag[0] + (sag[-1] - sag[0]) * (y - y[0]) / (y[-1] - y[0])
    return float(np.max(np.abs(sag - line)))


def chi_lt(sec, span_mm):
    """Reduction for lateral-torsional buckling, 6.3.2.3, load on the top flange."""
    if sec["kind"] != "open":
        return 1.0
    c1, c2, zg = 1.348, 0.630, sec["h"] / 2
    euler = math.pi**2 * sec["E"] * sec["Iz"] / span_mm**2
    inner = sec["Iw"] / sec["Iz"] + span_mm**2 * T.G_STEEL * sec["It"] / (math.pi**2 * sec["E"] * sec["Iz"]) + (c2 * zg) ** 2
    m_cr = c1 * euler * (math.sqrt(inner) - c2 * zg)
    w = sec["Wpl"] if sec["klass"] <= 2 else sec["Wel"]
    lam = math.sqrt(w * sec["fy"] / m_cr)
    alpha = 0.34 if sec["h"] / sec["b"] <= 2 else 0.49
    phi = 0.5 * (1 + alpha * (lam - 0.4) + 0.75 * lam**2)
    if lam <= 0.4:
        return 1.0
    return min(1.0, 1 / lam**2, 1 / (phi + math.sqrt(phi**2 - 0.75 * lam**2)))


def web_open(sec, ss, end_distance):
    """EN 1993-1-5 section 6: resistance in kN; end_distance None for type (a)."""
    hw, tw, tf, fy = sec["hw"], sec["tw"], sec["tf"], sec["fy"]
    ss = min(ss, hw)
    kf = 6.0 if end_distance is None else min(6.0, 2 + 6 * (ss + end_distance) / hw)
    f_cr = 0.9 * kf * sec["E"] * tw**3 / hw
    m1 = sec["b"] / tw

    def length(m2):
        if end_distance is None:
            return ss + 2 * tf * (1 + math.sqrt(m1 + m2))
        le = min(kf * sec["E"] * tw**2 / (2 * fy * hw), ss + end_distance)
        return min(le + tf * math.sqrt(m1 / 2 + (le / tf) ** 2 + m2), le + tf * math.sqrt(m1 + m2),
                   ss + 2 * tf * (1 + math.sqrt(m1 + m2)))

    best = None
    for m2 in (0.02 * (hw / tf) ** 2, 0.0):
        ly = length(m2)
        lam = math.sqrt(ly * tw * fy / f_cr)
        if m2 > 0.0 and lam <= 0.5:
            continue
        best = min(1.0, 0.5 / lam) * ly * tw * fy / GAMMA_M / 1e3
        break
    return best


def check_needle(sec, strength, service, leaf_strength, leaf_service, leaf_y, yo, yi, days):
    """Uses of one needle by family, and its prop reactions.

    `strength` and `service` are the governing needle load per leaf in kN; `leaf_*` the largest per leaf.
    """
    length = yi - yo + 2 * BEYOND
    own_kn = sec["mass"] * length / 1e3 * 9.81 / 1e3
    out = {}

    def own(f):
        return (yo - BEYOND, yi + BEYOND, f * own_kn)

    s_parts = [(a, b, p) for (a, b), p in zip(leaf_y, service)]
    u_parts = [(a, b, p) for (a, b), p in zip(leaf_y, strength)]
    prop_s = prop_loads(s_parts, own(1.0), yo, yi)
    prop_u = prop_loads(u_parts, own(1.35), yo, yi)
    m_u = v_u = m_s = mv = 0.0
    fy = sec.get("fy")
    klass = sec.get("klass", 1)
    for a, b in SHIFTS:
        _, v, m, ro, ri = section_forces(u_parts, own(1.35), yo + a, yi + b)
        m_u, v_u = max(m_u, float(np.max(np.abs(m)))), max(v_u, float(np.max(np.abs(v))))
        _, _, ms, _, _ = section_forces(s_parts, own(1.0), yo + a, yi + b)
        m_s = max(m_s, float(np.max(np.abs(ms))))
        if sec["kind"] != "timber":
            vpl = sec["Av"] * fy / math.sqrt(3) / GAMMA_M / 1e3
            w = sec["Wpl"] if klass <= 2 else sec["Wel"]
            rho = np.where(np.abs(v) > 0.5 * vpl, (2 * np.abs(v) / vpl - 1) ** 2, 0.0)
            if sec["kind"] == "open":
                aw = sec["hw"] * sec["tw"]
                red = (sec["Wpl"] - rho * aw**2 / (4 * sec["tw"])) * fy / GAMMA_M / 1e6
                red = np.minimum(red, w * fy / GAMMA_M / 1e6)
            else:
                red = w * (1 - rho * sec["Av"] / sec["A"]) * fy / GAMMA_M / 1e6
            mv = max(mv, float(np.max(np.where(rho > 0, np.abs(m) / np.maximum(red, 1e-9), 0.0))))
    sag = deflection(s_parts, own(1.0), yo - SHIFT, yi + SHIFT, sec["E"] * sec["I"])
    out["needle_deflection"] = max(sag / 2.0, sag / ((yi - yo) / 360))
    extra = dict(prop_s=prop_s, prop_u=prop_u, sag=sag, m_u=m_u, m_s=m_s, v_u=v_u, own=own_kn)
    if sec["kind"] == "timber":
        km = T.kmod(days) / 1.3
        out["timber_bending"] = m_u * 1e6 / sec["Wel"] / (sec["fm"] * km)
        out["timber_shear"] = 1.5 * v_u * 1e3 / (0.67 * sec["A"]) / (sec["fv"] * km)
        at_wall = max(p * 1e3 / (sec["b"] * (b - a + 60)) for (a, b), p in zip(leaf_y, leaf_strength))
        at_prop = max(prop_u) * 1e3 / (sec["b"] * (STIFF + 60))
        out["timber_bearing"] = max(at_wall, at_prop) / (1.5 * sec["fc90"] * km)
        return out, extra
    w = sec["Wpl"] if klass <= 2 else sec["Wel"]
    m_rd = w * fy / GAMMA_M / 1e6
    out["needle_bending"] = max(m_u / m_rd, m_s / (sec["Wel"] * fy / 1.65 / 1e6))
    out["needle_shear"] = v_u / (sec["Av"] * fy / math.sqrt(3) / GAMMA_M / 1e3)
    out["needle_bending_shear"] = mv
    out["needle_ltb"] = m_u / (m_rd * chi_lt(sec, yi - yo + 2 * SHIFT)) if sec["kind"] == "open" else 0.0
    if sec["kind"] == "open":
        # A leaf presses over its own thickness; the prop's head over the stiff length.
        wall = [web_open(sec, b - a, None) for a, b in leaf_y]
        prop = web_open(sec, STIFF, BEYOND - SHIFT - STIFF / 2)
    else:
        t = sec["t"]
        wall = [2 * t * (b - a + 2 * t) * fy / GAMMA_M / 1e3 for a, b in leaf_y]
        prop = 2 * t * (STIFF + t) * fy / GAMMA_M / 1e3
    out["needle_web_wall"] = max(p / r for p, r in zip(leaf_strength, wall))
    out["needle_web_prop"] = max(prop_u) / prop
    return out, extra


def bending_capacity(sec, days):
    """Design bending resistance in kNm, used where a support is lost."""
    if sec["kind"] == "timber":
        return sec["Wel"] * sec["fm"] * T.kmod(days) / 1.3 / 1e6
    return (sec["Wpl"] if sec["klass"] <= 2 else sec["Wel"]) * sec["fy"] / GAMMA_M / 1e6


def library_frame(parts, own, yo, yi, e_i, area_mm2, lengths_m):
    """The general library on needle and props as one frame: prop forces and the needle's sag between its heads.

    The props are hinged at head and foot; a light spring holds the needle sideways, since
    a needle on two props has no stiffness of its own.
    """
    from Pynite import FEModel3D

    m = FEModel3D()
    e_kn = 210e6
    m.add_material("steel", e_kn, 81e6, 0.3, 77.0)
    m.add_section("needle", area_mm2 * 1e-6, 1e-6, e_i * 1e-9 / e_kn, 1e-6)
    m.add_section("prop", 5.6e-4, 2.0e-7, 2.0e-7, 4e-7)
    marks = [own[0], own[1], yo, yi]
    for v in (*np.linspace(yo, yi, 17), *((a + b) / 2 for a, b, _ in parts)):
        if min(abs(v - u) for u in marks) > 2.0:
            marks.append(float(v))
    marks.sort()
    name = {}
    for k, y in enumerate(marks):
        name[k] = f"n{k}"
        m.add_node(f"n{k}", y / 1e3, 0.0, 0.0)
        m.def_support(f"n{k}", False, False, True, True, True, False)
    for k in range(len(marks) - 1):
        m.add_member(f"b{k}", f"n{k}", f"n{k + 1}", "steel", "needle")
    heads = []
    for tag, y, length in (("o", yo, lengths_m[0]), ("i", yi, lengths_m[1])):
        k = min(range(len(marks)), key=lambda j: abs(marks[j] - y))
        heads.append(k)
        m.add_node(f"f{tag}", y / 1e3, -length, 0.0)
        m.def_support(f"f{tag}", True, True, True, True, True, False)
        m.add_member(f"p{tag}", f"f{tag}", f"n{k}", "steel", "prop")
        m.def_releases(f"p{tag}", Rzj=True)
    m.def_support_spring(f"n{heads[0]}", "DX", 1e3)
    for a, b, p in parts + [own]:
        if p <= 0.0:
            continue
        w = -p / ((b - a) / 1e3)
        for k in range(len(marks) - 1):
            r, s = max(a, marks[k]), min(b, marks[k + 1])
            if s > r + 1e-9:
                m.add_member_dist_load(f"b{k}", "FY", w, w, (r - marks[k]) / 1e3, (s - marks[k]) / 1e3)
    m.analyze_linear(check_statics=False, sparse=False)
    combo = "Combo 1"
    dy = [m.nodes[name[k]].DY[combo] * 1e3 for k in range(len(marks))]
    o, i = heads
    sag = max(abs(dy[k] - (dy[o] + (dy[i] - dy[o]) * (marks[k] - marks[o]) / (marks[i] - marks[o]))) for k in range(o, i + 1))
    return m.nodes["fo"].RxnFY[combo], m.nodes["fi"].RxnFY[combo], sag

"""All checks of one job with a given arrangement; returns the reference record."""

import math

from . import foot as F
from . import line as L
from . import lost as X
from . import masonry as M
from . import needle as N
from . import prop as P
from . import sideways as S
from . import tables as T
from . import takedown as D


def _geometry(wall, xs, sec, top, bungalow):
    """Rules that pass or fail."""
    out = []
    needle = sec["b"] / 1e3
    hole = needle + 0.075
    width = wall.width
    gaps = [b - a for a, b in zip(xs, xs[1:])]
    if any(g - hole < max(2 * hole, 0.44) - 1e-9 for g in gaps):
        out.append("clear_masonry")
    if any(g > 1.2 + 1e-9 for g in gaps):
        out.append("spacing")
    reach = max(gaps) / 2 if gaps else width
    if gaps and (xs[0] > reach + 1e-9 or width - xs[-1] > reach + 1e-9):
        out.append("ends")
    if xs[0] < hole / 2 - 1e-9 or width - xs[-1] < hole / 2 - 1e-9:
        # A hole that reaches past the cut edge weakens the jamb that the new beam will stand on.
        out.append("hole_past_edge")
    if len(xs) == 1 and (width > 1.2 + 1e-9 or not width / 3 - 1e-9 <= xs[0] <= 2 * width / 3 + 1e-9):
        out.append("single")
    for f in wall.job.get("forbidden") or []:
        if any(x + hole / 2 > f["from_m"] + 1e-9 and x - hole / 2 < f["to_m"] - 1e-9 for x in xs):
            out.append("forbidden")
    edges = [(0.0, xs[0] - needle / 2), (xs[-1] + needle / 2, width)]
    bays = edges + [(a + needle / 2, b - needle / 2) for a, b in zip(xs, xs[1:])]
    bearings = [z for z, st in zip(wall.levels, wall.job["above"]) if st.get("floor") and D.floor_line(st["floor"])[0] > 0]
    roof = wall.job.get("roof") or {}
    if not bungalow and roof.get("kind", "none") != "none" and roof.get("bears", True):
        bearings.append(wall.top)
    for a, b in bays:
        if any(z >= wall.soffit - 1e-9 and z - top < (b - a) / 2 - 1e-9 for z in bearings) and b - a > 1e-9:
            out.append("joists")
        for p in wall.job.get("points") or []:
            z = wall.levels[p["level"]] if p["level"] < len(wall.levels) else wall.top
            if a < p["x_m"] < b and z - top < (b - a) / 2 - 1e-9:
                out.append("point")
    return sorted(set(out))


def _r(v):
    return None if v is None or math.isinf(v) or math.isnan(v) else float(f"{v:.5g}")


def geometry(job):
    """The rules that pass or fail, alone."""
    wall, fix = D.Wall(job), job["fix"]
    sec = T.section(fix["section"])
    top = wall.soffit + (sec["h"] + fix["pack_mm"]) / 1e3
    return _geometry(wall, sorted(fix["needles_x_m"]), sec, top, not wall.levels and wall.top - top < 0.30)


def judge(job, library=False, quick=False, prudent=False):
    """Reference results of a job whose `fix` is complete; `quick` leaves out the loss of a support."""
    wall, fix = D.Wall(job), job["fix"]
    xs, pack = sorted(fix["needles_x_m"]), fix["pack_mm"]
    sec = T.section(fix["section"])
    days = job["site"]["days"]
    yo, yi = fix["outside_y_mm"], fix["inside_y_mm"]
    profs = {"straight": D.profile(wall, False)}
    if wall.holes:
        profs["spread"] = D.profile(wall, True)
    plist = list(profs.values())
    n = len(wall.leaves)
    straight = profs["straight"]
    needles = L.candidates(profs, xs, wall.width, n)
    half, needle_m = sec["b"] / 2, sec["b"] / 1e3
    top = wall.soffit + (sec["h"] + pack) / 1e3
    bungalow = not wall.levels and wall.top - top < 0.30
    use, lever, cont, load, own = {}, [], [], [], 0.0
    worst_prop_s, worst_prop_u, per_needle = [0.0, 0.0], [0.0, 0.0], []

    def keep(name, value):
        use[name] = max(use.get(name, 0.0), value)

    line_diff = frame_diff = None
    if library:
        line_diff = _library_line(profs, xs, wall, needles)
    for i, mine in enumerate(needles):
        lever.append(max(sum(c["service"]) for c in mine if c["how"] == "lever"))
        cont.append(max(sum(c["service"]) for c in mine if c["how"] == "continuous"))
        load.append(max(lever[-1], cont[-1]))
        service = max(mine, key=lambda c: sum(c["service"]))["service"]
        strength = max(mine, key=lambda c: sum(c["strength"]))["strength"]
        leaf_u = [max(c["strength"][k] for c in mine) for k in range(n)]
        leaf_s = [max(c["service"][k] for c in mine) for k in range(n)]
        uses, more = N.check_needle(sec, strength, service, leaf_u, leaf_s, wall.leaf_y, yo, yi, days)
        own = more["own"]
        for name, v in uses.items():
            keep(name, v)
        for side in (0, 1):
            worst_prop_s[side] = max(worst_prop_s[side], more["prop_s"][side])
            worst_prop_u[side] = max(worst_prop_u[side], more["prop_u"][side])
        per_needle.append(more["prop_s"])
        hc_top = min([z for z in [*wall.levels, wall.top] if z > top + 1e-9] or [top])
        for k, leaf in enumerate(wall.leaves):
            name = "bearing_inner" if k == n - 1 else "bearing_outer"
            others = [x for j, x in enumerate(xs) if j != i]
            keep(name, M.bearing(leaf, leaf_u[k], leaf_s[k], xs[i], half, pack, others, wall.width, hc_top - top, prudent))
    if library:
        i = max(range(len(xs)), key=lambda j: load[j])
        frame_diff = _library_frame(needles[i], sec, wall, yo, yi, own)
    reasons = _geometry(wall, xs, sec, top, bungalow)
    if bungalow:
        use["plate_bending"] = M.plate(wall, plist, xs, needle_m, days)
        if top > wall.top:
            reasons.append("no_room_under_plate")
    else:
        for k, v in enumerate(M.arches(wall, plist, xs, needle_m, top)):
            keep("arch_inner" if k == n - 1 else "arch_outer", v)
        v, why = M.end_bays(wall, plist, xs, needle_m, top)
        keep("end_bay", v)
        if why:
            reasons.append("end_bay")
    keep("stage", M.stage(wall, plist, xs, needle_m + 0.075))
    lost = [None] if quick else X.one_lost(wall, plist, xs, sec, yo, yi, days)
    sides, best, lost_best = _sides(job, wall, fix, xs, worst_prop_s, worst_prop_u, lost, days)
    total_s = D.total(straight, D.SERVICE)
    v = max(D.total(p, D.SERVICE) for p in plist) + own * len(xs)
    along, across = S.demand(wall, v)
    worst_fixed = max(use.values())
    governs = max(use, key=use.get)
    worst = worst_fixed
    for side, (value, family) in best.items():
        if value is None or value > worst:
            worst, governs = (math.inf if value is None else value), family or f"no prop {side}"
    lost_use = None
    if not X.is_unstable(lost) and lost_best[0] is not None and lost_best[1] is not None:
        lost_use = max([r[2] for r in lost] + list(lost_best))
    return dict(
        total_service_kn=_r(total_s), total_strength_kn=_r(D.total(straight, D.STRENGTH)),
        lever_kn=[_r(x) for x in lever], continuous_kn=[_r(x) for x in cont], load_kn=[_r(x) for x in load],
        prop_outside_kn=[_r(p[0]) for p in per_needle], prop_inside_kn=[_r(p[1]) for p in per_needle],
        use={k: _r(x) for k, x in use.items()}, sides=sides, worst=_r(worst), governs=governs, geometry=reasons,
        sideways=[_r(along), _r(across)], lost_bending=_r(max((r[2] for r in lost if r), default=0.0)),
        lost=_r(lost_use), lost_unstable=X.is_unstable(lost),
        verdict="fails" if reasons or not worst <= 1.0 else "holds" if worst <= 0.90 else "close",
        **({"library": [_r(line_diff), _r(frame_diff)]} if library else {}),
    )


def _sides(job, wall, fix, xs, prop_s, prop_u, lost, days):
    """Uses of prop and foot for each board, and the least demanding board of each side."""
    spacing = min([b - a for a, b in zip(xs, xs[1:])] or [9.0]) * 1e3
    out, best, lost_best = {}, {}, [None, None]
    for s, (side, clear) in enumerate((("outside", -fix["outside_y_mm"]), ("inside", fix["inside_y_mm"] - wall.total_mm))):
        place = job["sides"][side]
        rows, choice = [], (None, None)
        for board in T.BOARDS:
            length = wall.soffit - place["foot_level_m"] - board[2] / 1e3
            rating = P.rating(fix["prop"], length, place["foot"].get("fixed", False))
            if rating is None:
                rows.append(None)
                continue
            feet = F.check_foot(board, place["foot"], prop_s[s], prop_u[s], days)
            use = {"prop": prop_s[s] / rating["working"], **feet}
            lost_use = max((r[s] for r in lost if r), default=0.0) / rating["lost"]
            can = F.fits(board, clear, spacing)
            rows.append([_r(use["prop"]), _r(use["ground"]), _r(use["board_bending"]), _r(use["board_bearing"]),
                         _r(lost_use), _r(rating["working"]), int(can)])
            family = max(use, key=use.get)
            if can and (choice[0] is None or use[family] < choice[0]):
                choice, lost_best[s] = (use[family], family), lost_use
        out[side], best[side] = rows, choice
    return out, best, lost_best


def _library_line(profs, xs, wall, needles):
    """Largest difference between the general library and the own continuous beam, in parts of one."""
    if len(xs) < 2:
        return 0.0
    own = L.continuous(xs, 0.0, wall.width)
    worst = 0.0
    for tag, prof in profs.items():
        cases = [L.pattern_loads(prof, own[i], 1.0, 1.0) for i in range(len(xs))]
        got = L.library_reactions(xs, cases, 0.0, wall.width)
        for i, mine in enumerate(needles):
            if min(got[i]) < -1e-9:
                continue
            want = next(sum(c["service"]) for c in mine if c["profile"] == tag and c["how"] == "continuous")
            worst = max(worst, abs(got[i][i] - want) / max(want, 1e-9))
    return worst


def _library_frame(mine, sec, wall, yo, yi, own_kn):
    """Largest difference between the library's frame and the own statics, in parts of one."""
    service = max(mine, key=lambda c: sum(c["service"]))["service"]
    parts = [(a, b, p) for (a, b), p in zip(wall.leaf_y, service)]
    yo, yi = yo - N.SHIFT, yi + N.SHIFT
    own = (yo - N.BEYOND + N.SHIFT, yi + N.BEYOND - N.SHIFT, own_kn)
    ro, ri = N.reactions(parts + [own], yo, yi)
    sag = N.deflection(parts, own, yo, yi, sec["E"] * sec["I"])
    fo, fi, fsag = N.library_frame(parts, own, yo, yi, sec["E"] * sec["I"], sec["A"], (2.2, 2.3))
    return max(abs(fo / ro - 1), abs(fi / ri - 1), abs(fsag - sag) / max(sag, 1e-3))

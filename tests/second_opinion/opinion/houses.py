"""Random houses inside the scope of METHOD 0, and arrangements of needles for them."""

from . import tables as T
from .takedown import Wall

STEEL = [
    "SHS80x80x5 S355", "SHS100x100x5 S355", "SHS100x100x8 S355", "SHS120x120x6.3 S355", "SHS140x140x8 S355", "SHS150x150x8 S355",
    "RHS120x80x6.3 S355", "RHS150x100x6.3 S355", "RHS150x100x8 S355",
    "UB127x76x13 S275", "UB152x89x16 S275", "UB178x102x19 S275", "UB203x133x25 S275",
    "UC152x152x23 S275", "UC152x152x30 S275", "UC152x152x37 S275", "UC203x203x46 S275",
]
TIMBER = ["C24 150x150", "C24 200x200", "D40 200x200", "C24 100x100"]
GROUNDS = ["soft_clay", "firm_clay", "stiff_clay", "loose_sand", "dense_sand", "gravel", "rock", "firm_clay", "dense_sand", "stiff_clay"]


def _leaves(rng):
    kind = rng.choices(["cavity", "solid", "block", "blocks"], [5, 3, 2, 1])[0]
    lime = kind == "solid" and rng.random() < 0.5 or rng.random() < 0.04
    mortar = "lime" if lime else "cement"
    outer = rng.choices(["clay_brick", "calcium_silicate_brick"], [4, 1])[0]
    block = rng.choices(["dense_block", "medium_block", "aerated_block"], [5, 3, 1])[0]
    if kind == "cavity":
        inner = block if rng.random() < 0.8 else outer
        t = 102.5 if inner == outer else rng.choice([100, 100, 140])
        out = [dict(material=outer, thickness_mm=102.5, mortar=mortar), dict(material=inner, thickness_mm=t, mortar=mortar)]
    elif kind == "solid":
        out = [dict(material=outer, thickness_mm=rng.choice([215, 215, 215, 327.5]), mortar=mortar)]
        if lime and outer == "clay_brick" and rng.random() < 0.6:
            out[0]["year"] = rng.choice([1880, 1905, 1919, 1926])
    elif kind == "block":
        out = [dict(material=block, thickness_mm=rng.choice([140, 190, 215, 215]), mortar="cement")]
    else:
        out = [dict(material=block, thickness_mm=100, mortar="cement"), dict(material=block, thickness_mm=rng.choice([100, 140]), mortar="cement")]
    if rng.random() < 0.7:
        out[-1]["plaster_mm"] = rng.choice([12, 13, 15, 20])
    for leaf in out:
        if rng.random() < 0.15:
            leaf["density_kn_m3"] = round(T.DENSITY[leaf["material"]] * rng.uniform(0.9, 1.2), 1)
        if rng.random() < 0.3:
            low, high = (12, 45) if leaf["material"].endswith("brick") else (3.6, 10.4)
            leaf["unit_n_mm2"] = round(rng.uniform(low, high), 1)
            if rng.random() < 0.3:
                leaf["unit_is_normalised"] = True
        if leaf["mortar"] == "cement" and rng.random() < 0.2:
            leaf["mortar_n_mm2"] = rng.choice([2.0, 6.0, 12.0])
        if rng.random() < 0.04:
            leaf["unit_group"] = 2
    return out


def _windows(rng, width, left, right, height, depth):
    out = []
    n = 1 if width < 2.2 or rng.random() < 0.6 else 2
    for i in range(n):
        w = round(rng.uniform(0.6, min(1.5, width * 0.75 / n)), 2)
        part = width / n
        x = round(i * part + rng.uniform(0.0, max(0.0, part - w)), 2) if n == 2 else round(rng.uniform(-0.3, width - w + 0.3), 2)
        sill = round(rng.uniform(0.75, 1.0), 2)
        high = round(rng.uniform(0.9, min(1.35, height - depth - sill - 0.2)), 2)
        x = max(x, round(-left + 0.3, 2))
        if x + w > width + right - 0.3:
            continue
        if out and x < out[-1]["x_m"] + out[-1]["width_m"] + 0.25:
            continue
        out.append(dict(x_m=x, sill_m=sill, width_m=w, height_m=high))
    return out


def house(rng, want):
    """A job without an arrangement."""
    storeys = rng.choices([0, 1, 2, 3], [0 if want["windows"] else 2, 10, 5, 1])[0]
    width = round(rng.uniform(1.0, 5.2 if storeys == 0 else 4.2), 2)
    head, beam = round(rng.uniform(1.85, 2.15), 2), rng.choice([150, 178, 203, 254])
    left, right = (round(rng.choice([rng.uniform(0.45, 0.8), rng.uniform(0.6, 3.0), rng.uniform(0.85, 3.0)]), 2) for _ in range(2))
    soffit = head + beam / 1000 + 0.05
    leaves = _leaves(rng)
    two = len(leaves) == 2
    above = []
    base = round(soffit + rng.uniform(0.45, 0.95), 2)
    inside_wall = not two and rng.random() < 0.35
    for i in range(storeys):
        height = round(rng.uniform(2.45, 2.9), 2)
        along = rng.random() < 0.12 and i > 0
        a, b = round(rng.uniform(1.8, 5.5), 2), 0.0
        if inside_wall:
            b = round(rng.uniform(1.5, 4.5), 2)
        depth = rng.choice([0.175, 0.2, 0.22])
        floor = dict(leaf="inner" if rng.random() < 0.85 else rng.choice(["outer", "both"]), inside_span_m=a, outside_span_m=b,
                     direction="along" if along else "onto", continuous=b > 0 and rng.random() < 0.5, joist_spacing_m=rng.choice([0.4, 0.45, 0.6]),
                     joist_depth_m=depth, dead_kn_m2=rng.choice([0.4, 0.5, 0.6, 0.75]), imposed_kn_m2=rng.choice([1.5, 1.5, 2.0]),
                     partitions_kn_m2=rng.choice([0.0, 0.5, 0.8]), empty=rng.random() < 0.2, slept_in=False)
        if i == 0:
            floor["bearing_m"] = base
        storey = dict(height_m=height, floor=floor)
        if i > 0 and rng.random() < 0.1 and len(leaves) == 1 and leaves[0]["thickness_mm"] > 215:
            storey["leaves"] = [dict(leaves[0], thickness_mm=215)]
        if want["windows"] and (i == 0 or rng.random() < 0.5) or rng.random() < 0.08:
            storey["openings"] = _windows(rng, width, left, right, height, depth)
        above.append(storey)
    kind = rng.choices(["trusses", "rafters", "flat", "none"], [8, 2, 1, 0.5 if storeys else 0])[0]
    roof = dict(kind=kind, leaf="inner" if rng.random() < 0.9 else "both", span_m=round(rng.uniform(4.0, 9.5), 2), overhang_m=rng.choice([0.0, 0.2, 0.3, 0.45]),
                pitch_deg=0 if kind == "flat" else rng.choice([17, 22, 27, 30, 35, 40, 45, 50]), dead_kn_m2=rng.choice([0.45, 0.6, 0.85, 1.0]),
                ceiling_kn_m2=rng.choice([0.25, 0.3]), bears=storeys == 0 or rng.random() < 0.85)
    if storeys == 0:
        roof["bearing_m"] = round(soffit + rng.choice([rng.uniform(0.2, 0.4), rng.uniform(0.7, 1.6)]), 2)
    job = dict(contract=1, country=rng.choice(["england", "scotland", "wales"]),
               opening=dict(width_m=width, head_m=head, left_masonry_m=left, right_masonry_m=right, beam_depth_mm=beam, flush=False),
               wall=dict(leaves=leaves, condition="sound" if rng.random() < 0.9 else "doubtful", gable=False, outside_wall=not inside_wall), above=above, roof=roof)
    if two:
        job["wall"]["cavity_mm"] = rng.choice([50, 75, 100])
    if want["points"]:
        job["points"] = [dict(x_m=round(rng.uniform(0.05, width - 0.05), 2), level=rng.randint(0, storeys), leaf=rng.choice(["inner", "both"]),
                              dead_kn=round(rng.uniform(1.0, 8.0 if rng.random() < 0.8 else 18.0), 1), imposed_kn=round(rng.uniform(0.0, 4.0), 1), what="purlin post")
                         for _ in range(rng.choice([1, 1, 2]))]
    levels = [0.0, round(rng.choice([-0.1, -0.15, -0.3, 0.1, -0.45]) if want["unequal"] else 0.0, 2)]
    job["sides"] = {}
    for name, level in zip(("inside", "outside"), levels):
        slab = rng.random() < (0.8 if name == "inside" else 0.25)
        foot = dict(kind="slab_on_ground" if slab else rng.choice(["ground", "ground", "paving"]), fixed=rng.random() < 0.75)
        if slab:
            foot["thickness_mm"] = rng.choice([75, 100, 150])
        if rng.random() < 0.12:
            foot["bearing_kpa"] = rng.choice([60, 90, 100, 125])
        else:
            foot["ground"] = rng.choice(GROUNDS)
        job["sides"][name] = dict(foot_level_m=level, room_m=round(rng.uniform(1.4, 4.0), 1), foot=foot)
    job["site"] = dict(altitude_m=rng.choice([20, 60, 100, 180]), wind_m_s=rng.choice([21, 22, 23.5, 25]), terrain=rng.choice(["II", "III", "IV"]), days=rng.choice([5, 14, 21, 42]))
    if rng.random() < 0.8:
        job["site"]["snow_zone"] = rng.choice([1, 2, 3, 4, 5])
    elif rng.random() < 0.5:
        job["site"]["snow_kn_m2"] = rng.choice([0.4, 0.75, 1.2])
    job["answers"] = dict(cellar="no", chimney="no", bay="no", veneer="no", removed="no", digging="no", cracked="no",
                          corner_m=round(max(left, right) + 0.3, 2), restraint="floor" if storeys else "roof")
    return job


def prop_at_hand(rng):
    """A prop as a contract entry."""
    kind = rng.choices(["tn79", "en1065", "sheet"], [5, 4, 1.5])[0]
    if kind == "tn79":
        return dict(data="tn79", size=rng.choice([1, 2, 2, 2, 3]))
    if kind == "en1065":
        return {"data": "en1065", "class": rng.choice(["A25", "A30", "A35", "B30", "B35", "B35", "C30", "C35", "D30", "D35", "E30", "E35", "D40", "E40"])}
    top = rng.choice([26.0, 32.0, 40.0])
    out = dict(data="sheet", table=[[2.0, top], [2.3, round(top * 0.85, 1)], [2.6, round(top * 0.7, 1)], [3.0, round(top * 0.52, 1)], [3.3, round(top * 0.42, 1)]],
               load=rng.choice(["safe_working", "characteristic"]), min_m=1.8, max_m=3.3)
    basis = rng.choice([None, (25.0, 0.0, 1.5), (10.0, 0.0, 1.0), (10.0, 10.0, 0.0)])
    if basis:
        out["basis"] = dict(zip(("head_mm", "foot_mm", "lean_deg"), basis))
    if rng.random() < 0.5:
        out["tubes"] = dict(outer_mm=[63.5, 3.6], inner_mm=[51.0, 4.0], closed_m=1.8)
    return out


def arrange(rng, job, want):
    """Puts a complete `fix` into the job."""
    wall = Wall(job)
    width = wall.width
    timber = rng.random() < 0.03
    section = rng.choice(TIMBER if timber else STEEL)
    hole = T.section(section)["b"] / 1000 + 0.075
    least = hole + max(2 * hole, 0.44)
    if width <= 1.2 and rng.random() < 0.5:
        xs = [round(width * rng.uniform(0.36, 0.64), 3)]
    else:
        gap = rng.uniform(least, min(1.2, max(least + 0.05, width * 0.8)))
        n = max(2, int(width // gap) + rng.choice([0, 1]))
        gap = min(gap, 1.2)
        if want["geometry"]:
            gap *= rng.uniform(0.6, 1.3)
        lead = (width - (n - 1) * gap) / 2
        shift = rng.uniform(-0.1, 0.1)
        xs = [lead + shift + i * gap for i in range(n)]
        if rng.random() < 0.4:
            xs = [x + rng.uniform(-0.06, 0.06) for x in xs]
        edge = hole / 2 + 0.001
        xs = sorted(round(min(max(x, edge), width - edge), 3) for x in xs)
    job.pop("forbidden", None)
    if rng.random() < 0.15 and len(xs) > 1:
        mid = (xs[0] + xs[1]) / 2
        job["forbidden"] = [dict(from_m=round(mid - 0.05, 3), to_m=round(mid + 0.05, 3), why="soil pipe")]
    near = lambda: 0.05 * rng.choice([7, 8, 9, 9, 9, 10, 11, 12, 14, 16])  # noqa: E731
    room = {k: job["sides"][k]["room_m"] - 0.15 for k in job["sides"]}
    job["fix"] = dict(needles_x_m=xs, section=section, prop=prop_at_hand(rng), inside_y_mm=round(wall.total_mm + min(near(), room["inside"]) * 1000, 1),
                      outside_y_mm=-round(min(near(), room["outside"]) * 1000, 1), pack_mm=rng.choice([0, 10, 15, 20, 25]))


def in_scope(job):
    """Whether the method applies (METHOD 0), as far as a generated job can leave it."""
    op = job["opening"]
    return min(op["left_masonry_m"], op["right_masonry_m"]) >= 0.45 and len(job["above"]) <= 3

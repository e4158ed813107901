"""Boards and the ground under them: METHOD 9, EN 1995-1-1."""

from . import tables as T

PLATE = 150.0


def spread(board):
    """(along, across) in mm of the loaded area under a board, layer by layer."""
    length, breadth, thick, layers = board
    if layers == 1:
        return min(PLATE + 4 * thick, length), min(PLATE + 2 * thick, breadth)
    t = thick / 2
    # The upper layer's grain runs along the length, the lower one's along the breadth.
    a, b = min(PLATE + 4 * t, length), min(PLATE + 2 * t, breadth)
    return min(a + 2 * t, length), min(b + 4 * t, breadth)


def check_foot(board, foot, service_kn, strength_kn, days):
    """Uses of one foot: ground, board_bending, board_bearing."""
    a, b = spread(board)
    slab = foot.get("thickness_mm", 0.0) if foot["kind"] == "slab_on_ground" else 0.0
    allow = foot.get("bearing_kpa") or T.GROUND_KPA[foot.get("ground", "unknown")]
    pressure = service_kn / ((a + 2 * slab) * (b + 2 * slab) * 1e-6)
    km = T.kmod(days) / 1.3
    t = board[2] / board[3]
    fm, fc90 = T.TIMBER["C24"][0], T.TIMBER["C24"][1]
    out = []
    # Each layer is a cantilever beyond what presses on it.
    layers = [(min(PLATE + 4 * t, board[0]), min(board[1], board[0] if board[3] == 2 else board[1]))]
    if board[3] == 2:
        layers = [(min(PLATE + 4 * t, board[0]), min(PLATE + 2 * t, board[1])), (b, a)]
    press = PLATE
    for n, (along, across) in enumerate(layers):
        if n == 1:
            press = min(PLATE + 2 * t, board[1])
        arm = max(0.0, (along - press) / 2)
        moment = strength_kn * 1e3 / along * arm**2 / 2
        out.append(moment / (across * t * t / 6) / (fm * km))
    area = PLATE * (PLATE + 60.0)
    bearing = strength_kn * 1e3 / area / (1.25 * fc90 * km)
    return dict(ground=pressure / allow, board_bending=max(out), board_bearing=bearing)


def fits(board, clear_mm, spacing_mm):
    """Whether the board lies beside the wall and beside its neighbours, one way or the other."""
    a, b = board[0], board[1]
    return any(through / 2 <= clear_mm + 1e-6 and along <= spacing_mm + 1e-6 for through, along in ((a, b), (b, a)))

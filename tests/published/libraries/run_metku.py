"""Values of EN 1993-1-1 and EN 1995-1-1 from metku 0.1.35 (pip install metku==0.1.35; numpy 2.4.6, scipy 1.17.1)."""
import math

import numpy as np
from metku.eurocodes.en1995.en1995_1_1 import kmod
from metku.sections.steel.ISection import IPE
from metku.sections.steel.RHS import RHS
from metku.structures.steel.steel_member import SteelMember

for size in [(100, 100, 5), (150, 100, 8)]:
    s = RHS(*size, fy=355)
    print("RHS", size, f"A {s.A:.2f} Iy {s.I[0]:.1f} Wel {s.Wel[0]:.1f} Wpl {s.Wpl[0]:.1f} It {s.It:.0f}")
    moment, _ = s.bending_resistance()
    print("   MRd", f"{moment * 1e-6:.4f} kNm, VRd {s.shear_force_resistance() * 1e-3:.3f} kN")
s = IPE(200, fy=355)
print("IPE 200", f"A {s.A:.3f} Iy {s.I[0]:.1f} Iz {s.I[1]:.1f}")
print("   MRd", f"{s.bending_resistance()[0] * 1e-6:.4f} kNm, VRd {s.shear_force_resistance() * 1e-3:.3f} kN")
for length in (1500, 3000):
    m = SteelMember(s, length, Lcr=[1.0, 1.0])
    m.add_section(myed=30e6)
    mcr = m.mcrit(C=[1.0, 0, 0], k=[1, 1], za=0.0)
    print("   L", length, f"Mcr {mcr * 1e-6:.4f} kNm, lambda_LT {m.LT_slenderness(mcr):.5f}")
    for method in ("specific", "general"):
        print("      MbRd", method, f"{m.LT_buckling_strength(mcr, method=method) * 1e-6:.4f} kNm")
    nby, nbz = m.buckling_strength()
    print("      NbRd", f"y (curve a) {nby * 1e-3:.3f} kN, z (curve b) {nbz * 1e-3:.3f} kN")
for load in ("perm", "lt", "mt", "st"):
    print("kmod solid timber", load, [kmod("solid_timber", sc, load) for sc in (1, 2, 3)])

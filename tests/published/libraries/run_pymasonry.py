"""Values of EN 1996-1-1 3.6.1.2 and 6.1.3 from the public repository paulevalentine/pyMasonry.

Only its classes Masonry and Padstone are used: src/structuralMasonry.py and src/compressiveMasonry.py at commit
0e8b3b47013968f096c73312d2446b2bd94ca8aa must be on PYTHONPATH, sympy installed. Its partial factor is 2.7.
"""
from compressiveMasonry import Padstone

# fb N/mm2, fm N/mm2, K, near edge mm, far edge mm, height mm, length mm, thickness mm
CASES = [
    (20.0, 4.0, 0.50, 300.0, 5000.0, 900.0, 150.0, 102.5),
    (10.0, 2.0, 0.50, 0.0, 5000.0, 1200.0, 215.0, 102.5),
    (10.0, 4.0, 0.50, 600.0, 600.0, 2000.0, 200.0, 215.0),
    (8.0, 4.0, 0.75, 1500.0, 2500.0, 2400.0, 300.0, 100.0),
    (4.83, 4.0, 0.75, 150.0, 900.0, 600.0, 175.0, 100.0),
]
for case in CASES:
    p = Padstone(*case)
    print(case, f"fk {p.fk:.4f} lefm {p.effective_length:.3f} beta {p.beta:.4f} capacity {p.padstone_capacity:.3f} kN")

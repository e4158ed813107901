"""Steel section tables from steel-sections 0.1.0 (pip install steel-sections==0.1.0)."""
from steel_sections import get

for name in ("IPE 100", "IPE 120", "IPE 140", "IPE 160", "IPE 200", "IPE 400"):
    s = get(name)
    print(name, "A", s.area_cm2, "cm2, Iy", s.iy_cm4, "cm4, Iz", s.iz_cm4, "cm4, mass", s.mass_kg_m, "kg/m")

"""Conversions of units from pint 0.25.3 (pip install pint==0.25.3)."""
import pint

u = pint.UnitRegistry()
print("pint", pint.__version__)
for value, a, b in [
    (1, "force_pound / foot**2", "kilonewton / meter**2"), (40, "force_pound / foot**2", "kilonewton / meter**2"),
    (1000, "force_pound / inch**2", "newton / millimeter**2"), (2.5, "force_long_ton", "kilonewton"),
    (1, "force_long_ton / foot**2", "kilonewton / meter**2"), (100, "force_pound / foot", "kilonewton / meter"),
    (120, "pound / foot**3", "kilogram / meter**3"), (9, "inch", "millimeter"), (12.5, "foot", "meter"),
    (1, "UK_hundredweight", "kilogram"), (60, "mile / hour", "meter / second"), (1000, "foot * force_pound", "kilonewton * meter"),
    (500, "kilogram_force", "kilonewton"), (40, "kilonewton / meter**2", "force_pound / foot**2"),
]:
    print(value, a, "->", f"{u.Quantity(value, a).to(b).magnitude:.7g}", b)

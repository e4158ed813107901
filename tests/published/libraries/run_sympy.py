"""Simple spans solved exactly with sympy 1.14.0 (pip install sympy==1.14.0); kN and m."""
import sympy
from sympy import Rational as R
from sympy.physics.continuum_mechanics.beam import Beam

print("sympy", sympy.__version__)


def span(name, length, ei, loads):
    b = Beam(length, ei, R(1))
    r0, r1 = sympy.symbols("r0 r1")
    b.apply_load(r0, 0, -1)
    b.apply_load(r1, length, -1)
    b.bc_deflection = [(0, 0), (length, 0)]
    for p, start, *end in loads:
        if end:
            b.apply_load(p / (end[0] - start), start, 0, end=end[0])
        else:
            b.apply_load(p, start, -1)
    b.solve_for_reaction_loads(r0, r1)
    x = b.variable
    steps = [length * R(i, 4000) for i in range(4001)]
    moment = sympy.lambdify(x, b.bending_moment().rewrite(sympy.Piecewise), "math")
    deflection = sympy.lambdify(x, b.deflection().rewrite(sympy.Piecewise), "math")
    print(name, "R", [float(-v) for v in b.reaction_loads.values()], "M", max(abs(moment(float(s))) for s in steps),
          "w mm", 1e3 * max(abs(deflection(float(s))) for s in steps))


E = R(210000000)
# loads: (kN, from m) or (kN, from m, to m); EI from cm4
span("one leaf", R(6, 5), E * R(1250, 10**8), [(R(20), R(45, 100) - R(1025, 20000), R(45, 100) + R(1025, 20000))])
span("two leaves", R(3, 2), E * R(1750, 10**8), [(R(14), R(55, 100)), (R(9), R(75, 100))])
span("cavity wall", R(8, 5), E * R(834, 10**8), [(R(12), R(3, 5), R(7, 10)), (R(8), R(31, 40), R(7, 8))])

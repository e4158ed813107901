"""Continuous beams from PyCBA 1.0.2 (pip install pycba==1.0.2; numpy 2.4.6, scipy 1.17.1); kN and m."""
import numpy as np
import pycba as cba


def show(name, spans, ei, supports, loads):
    beam = cba.BeamAnalysis(spans, ei, supports=supports)
    for load in loads:
        {"u": beam.add_udl, "p": beam.add_pl}[load[0]](*load[1:])
    beam.analyze(npts=2000)
    r = beam.beam_results
    moment, deflection = np.asarray(r.results.M), np.asarray(r.results.D)
    print(name, "R", np.round(r.R, 4), np.round(r.Rs, 4), "M", round(moment.max(), 4), round(moment.min(), 4),
          "D mm", round(np.abs(deflection).max() * 1e3, 5))


E = 210e6
pin = "p"
show("unequal", [1.2, 1.8], E * 1250e-8, [pin] * 3, [("u", 1, 20), ("u", 2, 20), ("p", 2, 15, 0.6)])
show("three unequal", [0.7, 0.9, 1.1], E * 834e-8, [pin] * 4, [("u", i, 25) for i in (1, 2, 3)] + [("p", 3, 8, 0.5)])
show("overhangs", [0.4, 1.5, 0.4], E * 1250e-8, ["f", pin, pin, "f"], [("u", i, 18) for i in (1, 2, 3)])
springs = [[8000.0, 0], [12000.0, 0], [8000.0, 0]]
show("springs", [1.0, 1.4], E * 2340e-8, springs, [("u", 1, 22), ("u", 2, 22), ("p", 1, 10, 0.4)])

"""Lines fitted by scipy (pip install numpy==2.3.5 scipy==1.16.3) and Student's t; prints tests/trend/lines.json."""
import json

import numpy
import scipy
from scipy import stats

rng = numpy.random.default_rng(20260302)
rows = []
for count in [3, 4, 5, 7, 12, 30, 200]:
    for slope, noise, shift in [(0.0, 0.1, 0.0), (0.3, 0.2, 0.0), (-1.7, 1.0, 40.0), (2.5e-3, 0.05, 700.0)]:
        x = numpy.round(numpy.sort(rng.uniform(0, 30, count)) + shift, 3)
        y = numpy.round(slope * x + rng.normal(0, noise, count), 3)
        r = stats.linregress(x, y)
        t = stats.t.ppf(0.975, count - 2)
        rows.append({"x": x.tolist(), "y": y.tolist(), "slope": r.slope, "slope_error": r.stderr, "intercept": r.intercept,
                     "intercept_error": r.intercept_stderr, "low": r.slope - t * r.stderr, "high": r.slope + t * r.stderr})
t = [[dof, stats.t.ppf(0.975, dof)] for dof in [*range(1, 41), 60, 120, 500, 1000]]
print(json.dumps({"numpy": numpy.__version__, "scipy": scipy.__version__, "lines": rows, "t": t}))

"""Homographies, lens and camera with OpenCV 5.0.0 (pip install opencv-python-headless==5.0.0.93 numpy==2.4.6
scipy==1.17.1).

Prints one JSON document: `run_opencv.py > calc/tests/sight/opencv.json`. Points are drawn with a fixed seed; what stands
under "matrix", "mapped" and "angle" was computed by the library alone. It holds points as 32-bit floats, so all are
rounded to an eighth, which such a number holds exactly. Over more than four pairs it stops short of the least sum of squares
(by up to 1e-1 of an element here), so scipy goes on from its answer; "sum" is the library's own sum, never the smaller one.
"""
import json

import cv2
import numpy as np
import scipy
from scipy.optimize import least_squares

rng = np.random.default_rng(20260)


def corners(width, height, tilt_deg, pan_deg, roll_deg, distance, focal, centre):
    """Corners of a rectangle (mm, y up, from its lower left corner) projected by the library."""
    wall = np.array([[0, height], [width, height], [width, 0], [0, 0]], float)
    turn = [cv2.Rodrigues(np.radians(axis))[0] for axis in ([tilt_deg, 0, 0], [0, pan_deg, 0], [0, 0, roll_deg])]
    # y of the wall runs up, y of the picture down.
    rotation = turn[2] @ turn[1] @ turn[0] @ np.diag([1.0, -1.0, -1.0])
    middle = np.array([width / 2, height / 2, 0.0])
    shift = np.array([0, 0, distance]) - rotation @ middle
    camera = np.array([[focal, 0, centre[0]], [0, focal, centre[1]], [0, 0, 1.0]])
    space = np.column_stack([wall, np.zeros(4)])
    seen, _ = cv2.projectPoints(space, cv2.Rodrigues(rotation)[0], shift, camera, None)
    return wall, seen.reshape(4, 2), rotation


out = {"library": f"opencv {cv2.__version__}, scipy {scipy.__version__}", "four": [], "many": [], "camera": []}
for _ in range(40):
    width, height = rng.uniform(300, 4000, 2)
    args = rng.uniform(-40, 40), rng.uniform(-40, 40), rng.uniform(-5, 5)
    width, height = round(width), round(height)
    wall, exact, rotation = corners(width, height, *args, rng.uniform(2500, 9000) + width + height, 2900.0, (2000.0, 1500.0))
    seen = np.round(exact * 8) / 8
    matrix, _ = cv2.findHomography(seen, wall, 0)
    point = rng.uniform(500, 2500, 2)
    mapped = cv2.perspectiveTransform(point.reshape(1, 1, 2), matrix).reshape(2)
    out["four"].append({"from": seen.tolist(), "to": wall.tolist(), "matrix": matrix.ravel().tolist(),
                        "point": point.tolist(), "mapped": mapped.tolist()})
    # The line of sight to the middle of the rectangle is the camera's axis here.
    angle = float(np.degrees(np.arccos(abs(rotation[2, 2]))))
    out["camera"].append({"corners": exact.tolist(), "width": width, "height": height, "focal": 2900.0, "angle": angle})
for count in (5, 6, 8, 12, 30):
    for _ in range(4):
        true = np.array([[0.7, 0.1, 40], [-0.05, 0.8, 30], [1e-4, 5e-5, 1]]) * rng.uniform(0.8, 1.2, (3, 3))
        start = np.round(rng.uniform(0, 3000, (count, 2)) * 8) / 8
        end = cv2.perspectiveTransform(start.reshape(-1, 1, 2), true).reshape(-1, 2) + rng.normal(0, 2.0, (count, 2))
        end = np.round(end * 8) / 8

        def off(h):
            return (cv2.perspectiveTransform(start.reshape(-1, 1, 2), np.append(h, 1).reshape(3, 3)).reshape(-1, 2) - end).ravel()

        def slopes(h):
            mapped = off(h).reshape(-1, 2) + end
            rows = []
            for (x, y), (u, v) in zip(start, mapped):
                w = h[6] * x + h[7] * y + 1
                rows.append([x / w, y / w, 1 / w, 0, 0, 0, -u * x / w, -u * y / w])
                rows.append([0, 0, 0, x / w, y / w, 1 / w, -v * x / w, -v * y / w])
            return np.array(rows)

        matrix, _ = cv2.findHomography(start, end, 0)
        first = matrix.ravel()[:8]
        best = least_squares(off, first, slopes, x_scale="jac", method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15)
        out["many"].append({"from": start.tolist(), "to": end.tolist(), "matrix": [*best.x.tolist(), 1.0],
                            "sum": float((off(first) ** 2).sum()), "least": float(2 * best.cost)})
print(json.dumps(out))

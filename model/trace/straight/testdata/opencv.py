#!/usr/bin/python3
"""Writes opencv.csv: where cv2.projectPoints puts places of the paper, for
random poses and one radial term."""
import os
import cv2
import numpy as np

os.chdir(os.path.dirname(os.path.abspath(__file__)))
rng = np.random.default_rng(5)
rows = [f"# OpenCV {cv2.__version__} projectPoints: turn x y z, move x y z, focal, middle x y, k1, mm x y, px x y"]
for _ in range(12):
    turn = rng.uniform(-0.4, 0.4, 3)
    move = np.array([rng.uniform(-200, 200), rng.uniform(-200, 200), rng.uniform(600, 1500)])
    f, cx, cy, k1 = rng.uniform(800, 3200), rng.uniform(480, 520), rng.uniform(640, 660), rng.uniform(-0.03, 0.03)
    k = np.array([[f, 0, cx], [0, f, cy], [0, 0, 1]])
    for _ in range(6):
        p = np.array([rng.uniform(-200, 200), rng.uniform(-200, 200), 0])
        q, _ = cv2.projectPoints(p[None], turn, move, k, np.array([k1, 0, 0, 0, 0.0]))
        rows.append(",".join(repr(float(v)) for v in [*turn, *move, f, cx, cy, k1, p[0], p[1], *q.ravel()]))
open("opencv.csv", "w").write("\n".join(rows) + "\n")

"""Makes a grey photo flat with OpenCV, over and over, on one thread, and prints
the processor time of one in seconds; reading the photo is not counted.

  remap.py PHOTO WIDE HIGH OUT TIMES TO_WIDE TO_HIGH K1 SCALE CX CY and nine
  numbers, row by row, that take a pixel of the flat picture to the photo as if
  the lens did not bend

PHOTO and OUT are bytes, row by row. Where in the photo each pixel lies is found
anew each time, as our own side does.
"""

import sys
import time

import cv2
import numpy as np

photo, wide, high, out, times = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), sys.argv[4], int(sys.argv[5])
size = int(sys.argv[6]), int(sys.argv[7])
k1, scale, cx, cy = map(float, sys.argv[8:12])
to_photo = np.array(sys.argv[12:21], float).reshape(3, 3)

cv2.setNumThreads(1)
image = np.fromfile(photo, np.uint8).reshape(high, wide)
straight = np.array([[scale, 0, cx], [0, scale, cy], [0, 0, 1]])
# OpenCV counts from the middle of the first pixel, we from its corner.
camera = np.array([[scale, 0, cx - 0.5], [0, scale, cy - 0.5], [0, 0, 1]])
turn = np.linalg.inv(np.linalg.inv(straight) @ to_photo)

for i in range(times + 1):
    if i == 1:
        start = time.process_time()  # the first does not count
    x, y = cv2.initUndistortRectifyMap(camera, np.array([k1, 0, 0, 0, 0.0]), turn, np.eye(3), size, cv2.CV_16SC2)
    flat = cv2.remap(image, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=255)
print((time.process_time() - start) / times)
flat.tofile(out)

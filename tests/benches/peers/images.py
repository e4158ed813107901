"""One library call, timed without the start of its interpreter: python3 images.py OUT PICTURE..."""

import json
import sys
import time

import img2pdf

if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    begun = time.perf_counter()
    with open(sys.argv[1], "wb") as out:
        img2pdf.convert(sys.argv[2:], outputstream=out)
    print(json.dumps({"seconds": time.perf_counter() - begun}))

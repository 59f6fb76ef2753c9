"""Weights to ONNX: python3 -m finder.export WEIGHTS OUT.onnx.

Writes the network with dynamic sizes and, beside it, OUT.json with what a decoder must know and the
digest of the file.
"""

import argparse
import hashlib
import json
import warnings
from pathlib import Path

import torch

from . import decode
from .network import MAPS, MULTIPLE, LineFinder

VERSION = 3
LONG_SIDE_PX = 1280
LARGEST_BYTES = 8 * 1024 * 1024


def export(weights, target):
    net = LineFinder().eval()
    net.load_state_dict(torch.load(weights, map_location="cpu"))
    axes = {"x": {0: "n", 2: "h", 3: "w"}, "maps": {0: "n", 2: "h4", 3: "w4"}}
    newer = {"dynamo": False} if int(torch.__version__.split(".")[0]) >= 2 and int(torch.__version__.split(".")[1]) >= 5 else {}
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        torch.onnx.export(net, torch.rand(1, 1, 256, 192), str(target), input_names=["x"], output_names=["maps"], dynamic_axes=axes, opset_version=17, **newer)
    data = target.read_bytes()
    if len(data) > LARGEST_BYTES:
        raise SystemExit(f"{target}: {len(data)} bytes; at most {LARGEST_BYTES} may be committed")
    described = {
        "version": VERSION,
        "sha256": hashlib.sha256(data).hexdigest(),
        "input": {"name": "x", "range": [0, 1], "sides_divisible_by": MULTIPLE, "long_side_px": LONG_SIDE_PX, "standardised_inside": True},
        "output": {"name": "maps", "stride_px": decode.STRIDE, "maps": list(MAPS)},
        "decoder": {
            name.lower(): getattr(decode, name)
            for name in ("SEED", "EDGE", "LEAST_CELLS", "LEAST_SCORE", "SHORT", "SHORT_SCORE", "CORE_MIDDLE", "END_REACH", "BIN", "STRAIGHT", "JOIN_GAP", "JOIN_STEP", "JOIN_RATIO")
        },
        "trained_letter_height_px": [5.2, 450],
    }
    target.with_suffix(".json").write_text(json.dumps(described, indent=2) + "\n", encoding="utf-8")
    return described


def main():
    parser = argparse.ArgumentParser(description="Exports the line finder to ONNX.")
    parser.add_argument("weights")
    parser.add_argument("target", type=Path)
    options = parser.parse_args()
    print(json.dumps(export(options.weights, options.target), indent=2))


if __name__ == "__main__":
    main()

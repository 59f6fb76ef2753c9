"""Averaged weights to ONNX: 8-bit convolutions, the rest stored in half precision, sidecar beside it.

    python3 -m lights.export --folder runs/sets --out runs/carved-sets.onnx --version 1

Input `x` (n, lights, 48, w), all three sizes free, w a multiple of 4; output `logits` (n, w/2, classes).
Checks the file against PyTorch and prints size and processor time. Needs PyTorch, onnx and onnxruntime.
"""

import argparse
import random
import tempfile
import time
from pathlib import Path

import numpy as np
import onnx
import onnxruntime
import torch
from onnxruntime.quantization import CalibrationDataReader

from carved import glyphs, typefaces
from carved.export import OPSET
from carved.quantise import IR_VERSION, MOST_BYTES, quantise_convolutions, store_in_half, write_sidecar
from lights.evaluate import load
from lights.net import SetReader
from lights.stone import SetRenderer

SEED = 900_417
CALIBRATION_SETS = 48
_TIMED = 5  # lines


class _Sets(CalibrationDataReader):
    """Sets of one to six lights in the typefaces of training."""

    def __init__(self, sets: list[np.ndarray]):
        self._feeds = iter([{"x": x} for x in sets])

    def get_next(self):
        return next(self._feeds, None)


def calibration_sets(count: int) -> list[np.ndarray]:
    rng = random.Random(SEED)
    torch.manual_seed(SEED)
    renderer = SetRenderer(SEED, torch.device("cuda" if torch.cuda.is_available() else "cpu"))
    out = []
    for number in range(count):
        mask, _ = glyphs.line_mask(rng, typefaces.trained())
        padded = np.pad(mask, ((0, 0), (0, -mask.shape[1] % 32)))
        out.append(renderer.render_sets(torch.from_numpy(padded)[None], 1 + number % 6).cpu().numpy())
    return out


def write_onnx(net: SetReader, out: Path) -> None:
    tracing = {"dynamo": False} if int(torch.__version__.split(".")[0]) >= 2 else {}
    torch.onnx.export(
        net, torch.rand(2, 3, 48, 320), str(out), input_names=["x"], output_names=["logits"],
        dynamic_axes={"x": {0: "n", 1: "lights", 3: "w"}, "logits": {0: "n", 1: "t"}}, opset_version=OPSET, **tracing,
    )  # fmt: skip


def session(path: Path) -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = options.inter_op_num_threads = 1
    return onnxruntime.InferenceSession(str(path), options, providers=["CPUExecutionProvider"])


def milliseconds(model: onnxruntime.InferenceSession, lights: int, width: int = 400) -> float:
    x = np.random.default_rng(1).random((1, lights, 48, width), np.float32)
    model.run(None, {"x": x})
    began = time.process_time()
    for _ in range(_TIMED):
        model.run(None, {"x": x})
    return (time.process_time() - began) / _TIMED * 1000


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--folder", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--version", required=True)
    arguments = parser.parse_args()
    net = load(SetReader(), arguments.folder)
    found = calibration_sets(CALIBRATION_SETS)
    arguments.out.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        whole, quantised = Path(folder) / "whole.onnx", Path(folder) / "quantised.onnx"
        write_onnx(net, whole)
        full = session(whole)
        for x in found[:6]:
            with torch.no_grad():
                off = np.abs(full.run(None, {"x": x})[0] - net(torch.from_numpy(x)).numpy()).max()
            print(f"{x.shape[1]} lights: full precision differs from PyTorch by {off:.2g}")
        quantise_convolutions(whole, _Sets(found), quantised)
        model = onnx.load(str(quantised))
        store_in_half(model)
        model.ir_version = IR_VERSION
        onnx.checker.check_model(model)
        onnx.save(model, str(arguments.out))
        write_sidecar(arguments.out, arguments.version, "carved-sets")
        small = session(arguments.out)
        same = [(full.run(None, {"x": x})[0].argmax(2) == small.run(None, {"x": x})[0].argmax(2)).mean() for x in found[:18]]
        sizes = f"{arguments.out.stat().st_size} bytes, full precision {whole.stat().st_size}"
        print(f"{arguments.out.name}: {sizes}; {np.mean(same):.4f} of the steps alike")
        for name, timed in {"8-bit": small, "full precision": full}.items():
            print(name, ", ".join(f"{n} lights {milliseconds(timed, n):.1f} ms" for n in (1, 2, 3, 4, 6)))


if __name__ == "__main__":
    main()

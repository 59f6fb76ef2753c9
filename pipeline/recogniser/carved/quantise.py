"""Makes the network small and fast on a CPU, and writes the sidecar that says how to use it.

    python3 -m carved.quantise --model runs/reader-fp32.onnx --calibration runs/calibration.npz \
        --out ../src/main/resources/rakelight/reading/carved-letters.onnx --version 1

Convolutions run in 8 bits, calibrated on rendered lines of the trained typefaces. The LSTM and the
last layer keep their accuracy and are only stored in half precision; ONNX Runtime widens them once,
when the session is opened. Needs onnx and onnxruntime, not PyTorch.
"""

import argparse
import hashlib
import json
import tempfile
from pathlib import Path

import numpy as np
import onnx
from onnx import helper, numpy_helper
from onnxruntime.quantization import CalibrationDataReader, QuantFormat, QuantType, quantize_static
from onnxruntime.quantization.shape_inference import quant_pre_process

from carved.text import CHARACTERS, SUPERIORS

MOST_BYTES = 20 << 20
INPUT_HEIGHT = 48
WIDTH_MULTIPLE = 4
TIME_STRIDE = 2  # net.TIME_STRIDE, repeated here so that this module does without PyTorch
IR_VERSION = 8  # the oldest that opset 17 allows; ONNX Runtime 1.23 reads it
_WORTH_HALVING = 4096  # elements; smaller constants stay as they are


class _Crops(CalibrationDataReader):
    def __init__(self, path: Path):
        archive = np.load(path)
        crops = [archive[f"crop_{i}"] for i in range(len(archive["labels"]))]
        self._feeds = iter([{"x": crop[None, None].astype(np.float32) / 255} for crop in crops])

    def get_next(self):
        return next(self._feeds, None)


def quantise_convolutions(model: Path, calibration: CalibrationDataReader, out: Path) -> None:
    """8-bit convolutions. Weights keep 7 bits, or sums overflow on processors without VNNI."""
    with tempfile.TemporaryDirectory() as folder:
        prepared = Path(folder) / "prepared.onnx"
        quant_pre_process(str(model), str(prepared), skip_symbolic_shape=True)
        quantize_static(
            str(prepared), str(out), calibration, quant_format=QuantFormat.QDQ, per_channel=True,
            activation_type=QuantType.QUInt8, weight_type=QuantType.QInt8, reduce_range=True,
            op_types_to_quantize=["Conv"],
        )  # fmt: skip


def store_in_half(model: onnx.ModelProto) -> None:
    """Large float constants become half-precision ones with a Cast behind them."""
    graph = model.graph
    casts = []
    for tensor in list(graph.initializer):
        if tensor.data_type != onnx.TensorProto.FLOAT or np.prod(tensor.dims) < _WORTH_HALVING:
            continue
        values = numpy_helper.to_array(tensor).astype(np.float16)
        half = numpy_helper.from_array(values, tensor.name + "_half")
        casts.append(helper.make_node("Cast", [half.name], [tensor.name], to=onnx.TensorProto.FLOAT))
        graph.initializer.remove(tensor)
        graph.initializer.append(half)
    nodes = casts + list(graph.node)
    del graph.node[:]
    graph.node.extend(nodes)


def write_sidecar(out: Path, version: str, name: str = "carved-letters") -> None:
    facts = {
        "name": name,
        "version": version,
        "sha256": hashlib.sha256(out.read_bytes()).hexdigest(),
        "characters": CHARACTERS,
        "superiors": SUPERIORS,
        "blank": 0,
        "height": INPUT_HEIGHT,
        "widthMultiple": WIDTH_MULTIPLE,
        "stride": TIME_STRIDE,
        "input": "x",
        "output": "logits",
    }
    text = json.dumps(facts, ensure_ascii=False, indent=2) + "\n"
    out.with_suffix(".json").write_text(text, encoding="utf-8")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--model", type=Path, required=True)
    parser.add_argument("--calibration", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    parser.add_argument("--version", required=True)
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        quantised = Path(folder) / "quantised.onnx"
        quantise_convolutions(arguments.model, _Crops(arguments.calibration), quantised)
        model = onnx.load(str(quantised))
    store_in_half(model)
    model.ir_version = IR_VERSION
    onnx.checker.check_model(model)
    arguments.out.parent.mkdir(parents=True, exist_ok=True)
    onnx.save(model, str(arguments.out))
    size = arguments.out.stat().st_size
    if size > MOST_BYTES:
        raise ValueError(f"{arguments.out.name}: {size} bytes, more than the {MOST_BYTES} allowed; make the network smaller")
    write_sidecar(arguments.out, arguments.version)
    print(f"{arguments.out.name}: {size / (1 << 20):.2f} MiB")


if __name__ == "__main__":
    main()

"""Averaged weights to ONNX in full precision (needs PyTorch; `quantise` goes on from there).

    python3 -m carved.export --folder runs/carved --out runs/reader-fp32.onnx
"""

import argparse
from pathlib import Path

import torch

from carved import checkpoint
from carved.net import LineReader
from carved.train import WEIGHTS_NAME

OPSET = 17


def export(run: Path, out: Path) -> dict:
    """Writes the network with dynamic batch and width; returns the training's progress."""
    loaded = checkpoint.load_weights(run, WEIGHTS_NAME)
    if loaded is None:
        raise FileNotFoundError(f"{run}: no {WEIGHTS_NAME}.0; train first or name the folder that holds it")
    net = LineReader()
    net.load_state_dict(loaded["weights"])
    net.eval()
    # From PyTorch 2.5 on the tracing exporter must be asked for.
    tracing = {"dynamo": False} if int(torch.__version__.split(".")[0]) >= 2 else {}
    torch.onnx.export(
        net, torch.rand(2, 1, 48, 320), str(out), input_names=["x"], output_names=["logits"],
        dynamic_axes={"x": {0: "n", 3: "w"}, "logits": {0: "n", 1: "t"}}, opset_version=OPSET, **tracing,
    )  # fmt: skip
    return loaded["progress"]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--folder", type=Path, required=True)
    parser.add_argument("--out", type=Path, required=True)
    arguments = parser.parse_args()
    print(export(arguments.folder, arguments.out))


if __name__ == "__main__":
    main()

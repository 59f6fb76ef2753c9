"""Weights of the reader of sets out of a committed ONNX file, back into PyTorch, so that training can go on from them.

    python3 -m lights.restore weights/carved-sets-2.onnx runs/sets --minutes 23

As `carved.restore`. The norms stay folded in, since training holds them still. --minutes is what the run is to believe it has
spent already. Needs onnx.
"""

import argparse
from pathlib import Path

import onnx
import torch

from carved import checkpoint
from carved.restore import Constants, product, restore
from carved.train import WEIGHTS_NAME
from lights.net import SetReader

_SEEN = (7_960, 2_226_960)  # steps and sets


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("model", type=Path)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--minutes", type=float, required=True)
    arguments = parser.parse_args()
    net = SetReader()
    restore(arguments.model, net, torch.rand(1, 2, 48, 320))
    graph = onnx.load(str(arguments.model)).graph
    constants = Constants(graph)
    with torch.no_grad():
        for name, linear in (("weight", net.weight), ("strongest", net.strongest)):
            linear.weight.copy_(product(graph, constants, linear.in_features, linear.out_features))
            if linear.bias is not None:
                linear.bias.copy_(constants.tensor(f"{name}.bias"))
    progress = {"step": _SEEN[0], "lines": _SEEN[1], "seconds": arguments.minutes * 60}
    checkpoint.save_weights(arguments.folder, WEIGHTS_NAME, net.state_dict(), progress)


if __name__ == "__main__":
    main()

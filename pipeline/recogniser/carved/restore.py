"""Weights out of a committed ONNX file, back into PyTorch, so that training can go on from them.

    python3 -m carved.restore reader ../src/main/resources/rakelight/reading/carved-letters.onnx runs/carved --minutes 26.4
    python3 -m carved.restore finder ../src/main/resources/rakelight/finding/line-finder.onnx runs/finder --minutes 14

A reader's classes may have become more since: those that its sidecar doesn't name begin as the letter they come from,
unlikely, and have to be learnt. The files hold convolutions with their batch norms folded in. Training needs the norms, so they are put
back: each is given the mean and spread that its input has on rendered stone, which leaves the
network's answers as they were. --minutes is what the run is to believe it has spent already.
Needs onnx, which training itself does not.
"""

import argparse
import json
from pathlib import Path

import numpy as np
import onnx
import torch
from onnx import numpy_helper
from torch import Tensor, nn

from carved import checkpoint, glyphs, text, typefaces
from carved.net import STEPS_PER_COLUMN, LineReader
from carved.stone import StoneRenderer
from carved.train import WEIGHTS_NAME

SEED = 77_003
_SEEN = {"reader": (45_670, 13_450_000), "finder": (19_550, 156_200)}  # steps and lines or pages seen, about
_NEW_CLASS_BIAS = -3.0  # against the letter a new class comes from


class Constants:
    """Values of a graph, with 8-bit and half-precision ones widened."""

    def __init__(self, graph: onnx.GraphProto):
        self._values = {t.name: numpy_helper.to_array(t) for t in graph.initializer}
        for node in graph.node:
            if node.op_type == "Cast" and node.input[0] in self._values:
                self._values[node.output[0]] = self._values[node.input[0]].astype(np.float32)
            elif node.op_type == "DequantizeLinear" and node.input[0] in self._values:
                quantised, scale, zero = (self._values[name].astype(np.float32) for name in node.input)
                shape = (-1,) + (1,) * (quantised.ndim - 1) if scale.ndim else ()
                self._values[node.output[0]] = (quantised - zero.reshape(shape)) * scale.reshape(shape)

    def tensor(self, name: str) -> Tensor:
        return torch.from_numpy(np.array(self._values[name], dtype=np.float32))


def restore(path: Path, net: nn.Module, example: Tensor) -> None:
    """Fills `net` from the file; convolutions are taken in the order in which `example` passes them."""
    graph = onnx.load(str(path)).graph
    constants = Constants(graph)
    passed: list[nn.Module] = []
    hooks = [m.register_forward_hook(lambda m, _, __: passed.append(m)) for m in net.modules() if isinstance(m, (nn.Conv2d, nn.BatchNorm2d))]
    net.eval()
    with torch.no_grad():
        net(example)
    for hook in hooks:
        hook.remove()
    convolutions = [node for node in graph.node if node.op_type == "Conv"]
    modules = [m for m in passed if isinstance(m, nn.Conv2d)]
    if len(convolutions) != len(modules):
        raise ValueError(f"{path}: {len(convolutions)} convolutions, the network has {len(modules)}")
    with torch.no_grad():
        for node, module in zip(convolutions, modules):
            module.weight.copy_(constants.tensor(node.input[1]))
            bias = constants.tensor(node.input[2])
            if module.bias is not None:
                module.bias.copy_(bias)
                continue
            norm = passed[passed.index(module) + 1]
            norm.weight.fill_(1)
            norm.bias.copy_(bias)
            norm.running_mean.zero_()
            norm.running_var.fill_(1 - norm.eps)
        for number, node in enumerate(n for n in graph.node if n.op_type == "LSTM"):
            _restore_lstm(net.along, number, *(constants.tensor(name) for name in node.input[1:4]))
        if hasattr(net, "letters"):
            weight = product(graph, constants, net.letters.in_features)
            _restore_classes(net.letters, _classes_of(path), weight, constants.tensor("letters.bias"))


def product(graph: onnx.GraphProto, constants: Constants, inputs: int, outputs: int | None = None) -> Tensor:
    """The weight of the linear layer of this size: products have lost their names."""
    found = [constants.tensor(node.input[1]).T for node in graph.node if node.op_type == "MatMul"]
    return next(weight for weight in found if weight.shape[1] == inputs and outputs in (None, weight.shape[0]))


def _classes_of(path: Path) -> str:
    """What the classes of a reader stand for, class 1 first, by its sidecar."""
    sidecar = json.loads(path.with_suffix(".json").read_text(encoding="utf-8"))
    return sidecar["characters"] + "".join(text.superior(letter) for letter in sidecar.get("superiors", ""))


def _restore_classes(last: nn.Linear, known: str, weight: Tensor, bias: Tensor) -> None:
    """Rows of the last layer by what they stand for; each time step of a column has rows of its own."""
    weight, bias = weight.reshape(STEPS_PER_COLUMN, len(known) + 1, -1), bias.reshape(STEPS_PER_COLUMN, -1)
    new_weight, new_bias = last.weight.view(STEPS_PER_COLUMN, len(text.CLASSES) + 1, -1), last.bias.view(STEPS_PER_COLUMN, -1)
    new_weight[:, 0], new_bias[:, 0] = weight[:, 0], bias[:, 0]
    for number, character in enumerate(text.CLASSES, 1):
        like = character if character in known else {"—": "-"}.get(character, text.on_the_line(character))
        at = known.find(like) + 1
        if at:
            new_weight[:, number], new_bias[:, number] = weight[:, at], bias[:, at]
        if not at or like != character:
            new_bias[:, number] = (bias[:, at] if at else bias[:, 1:].min()) + _NEW_CLASS_BIAS


def _restore_lstm(lstm: nn.LSTM, layer: int, ahead: Tensor, back: Tensor, biases: Tensor) -> None:
    """ONNX orders the gates input, output, forget, cell; PyTorch input, forget, cell, output."""

    def ordered(gates: Tensor) -> Tensor:
        i, o, f, c = gates.chunk(4)
        return torch.cat([i, f, c, o])

    for direction, suffix in enumerate(("", "_reverse")):
        of_input, of_state = biases[direction].chunk(2)
        named = {"weight_ih": ahead[direction], "weight_hh": back[direction], "bias_ih": of_input, "bias_hh": of_state}
        for name, value in named.items():
            getattr(lstm, f"{name}_l{layer}{suffix}").copy_(ordered(value))


@torch.no_grad()
def unfold_norms(net: nn.Module, pictures: list[Tensor]) -> None:
    """Gives every batch norm the statistics of its input over the pictures; the network's answers stay."""
    sums: dict[nn.BatchNorm2d, list[Tensor]] = {}

    def note(norm, inputs):
        x = inputs[0].double()
        found = [torch.tensor(x.numel() / x.shape[1], device=x.device), x.sum((0, 2, 3)), (x * x).sum((0, 2, 3))]
        sums[norm] = [a + b for a, b in zip(sums[norm], found)] if norm in sums else found

    hooks = [m.register_forward_pre_hook(note) for m in net.modules() if isinstance(m, nn.BatchNorm2d)]
    for picture in pictures:
        net(picture)
    for hook in hooks:
        hook.remove()
    for norm, (count, total, squares) in sums.items():
        mean = (total / count).float()
        variance = (squares / count - (total / count) ** 2).clamp(min=1e-8).float()
        norm.running_mean.copy_(mean)
        norm.running_var.copy_(variance)
        norm.bias.add_(mean)
        norm.weight.copy_((variance + norm.eps).sqrt())


def _lines(device: torch.device) -> list[Tensor]:
    renderer = StoneRenderer(SEED, device)
    drawn = glyphs.batches(SEED, typefaces.trained(), {width: 32 for width in (320, 576, 896, 1408)})
    return [renderer.render(torch.from_numpy(next(drawn)[0])) for _ in range(12)]


def _pages(device: torch.device) -> list[Tensor]:
    from finder import pages
    from finder.shading import photograph

    found = []
    for number, (target, batch) in enumerate(pages.Pages(SEED, 2, 1024, pages.TARGETS)):
        if number == 8:
            return found
        found.append(photograph(*[batch[name].to(device) for name in pages.MASKS], int(target), most_wear=0.9)[0])


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("which", choices=("reader", "finder"))
    parser.add_argument("model", type=Path)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--minutes", type=float, required=True)
    arguments = parser.parse_args()
    torch.manual_seed(SEED)
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    step, seen = _SEEN[arguments.which]
    if arguments.which == "reader":
        net, pictures = LineReader(), _lines(device)
    else:
        from finder.network import LineFinder

        net, pictures = LineFinder(), _pages(device)
    restore(arguments.model, net, pictures[0][:1].cpu())
    net.to(device)
    before = net(pictures[0]).detach()
    unfold_norms(net, pictures)
    print(f"answers differ by at most {(net(pictures[0]).detach() - before).abs().max():.2g} after the norms were put back")
    net.cpu()
    if arguments.which == "reader":
        checkpoint.save_weights(arguments.folder, WEIGHTS_NAME, net.state_dict(), {"step": step, "lines": seen, "seconds": arguments.minutes * 60})
    else:
        arguments.folder.mkdir(parents=True, exist_ok=True)
        torch.save({"net": net.state_dict(), "step": step, "seen": seen, "spent": arguments.minutes * 60}, arguments.folder / "net.pt")
        torch.save(net.state_dict(), arguments.folder / "weights.pt")


if __name__ == "__main__":
    main()

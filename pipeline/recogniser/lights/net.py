"""The network for sets: photographs of one line under one light or several in, letter scores per time step out.

The trunk of `carved.net.LineReader` runs over every photograph with the same weights. Between its
stages the photographs of a set tell each other what they show (mean and strongest, so that order and
number don't matter); at its end each column of the set is a weighed mean over the lights, the weights from
the columns themselves, with what only the strongest light shows added. The LSTM then reads once along
the line.

All that is new is nothing for a single photograph, whatever its weights: what photographs tell each other counts
1 - 1/lights, and a single one differs from nothing. So with one light this is a `LineReader`, and with its
weights reads as it does; with several, before training, it reads the mean of its columns.
"""

import torch
from torch import Tensor, nn

from carved.net import CLASSES, LineReader, _box, _two_views

HEADS = 8
_EXCHANGE_AFTER = (4, 8, 12)  # of the trunk's modules: behind its last three poolings
_CHANNELS_THERE = (80, 144, 224)


class _Exchange(nn.Module):
    """Adds to each photograph's features what the set as a whole shows. Without a batch norm: sets of one and of eight differ too much."""

    def __init__(self, channels: int):
        super().__init__()
        self.seen = nn.Sequential(nn.Conv2d(2 * channels, channels, 3, 1, 1), nn.SiLU(inplace=True))
        self.told = nn.Conv2d(channels, channels, 1)
        nn.init.zeros_(self.told.weight)
        nn.init.zeros_(self.told.bias)

    def forward(self, x: Tensor, lights: int) -> Tensor:
        of_set = x.reshape(-1, lights, *x.shape[1:])
        told = self.told(self.seen(torch.cat([of_set.mean(1), of_set.amax(1)], 1)))
        return (of_set + (1 - 1 / lights) * told.unsqueeze(1)).flatten(0, 1)


class SetReader(LineReader):
    """x (n, lights, 48, w) of 0..1, w a multiple of 4 -> logits (n, w/2, CLASSES).

    Beside the two views of a single photograph each has a third, what its light changes against the others.
    """

    def __init__(self):
        super().__init__()
        stem = self.features[0][0]
        self.features[0][0] = nn.Conv2d(3, stem.out_channels, 3, 1, 1, bias=False)
        self.exchange = nn.ModuleDict({str(at): _Exchange(channels) for at, channels in zip(_EXCHANGE_AFTER, _CHANNELS_THERE)})
        column = self.along.input_size
        self.weight = nn.Linear(column, HEADS)
        self.strongest = nn.Linear(column, column, bias=False)
        for fresh in (self.weight.weight, self.weight.bias, self.strongest.weight):
            nn.init.zeros_(fresh)

    def take_single(self, weights: dict[str, Tensor]) -> None:
        """Starts from the weights of a `LineReader`; the view that it doesn't have starts with weight 0."""
        own = self.state_dict()
        stem = torch.zeros_like(own["features.0.0.weight"])
        stem[:, :2] = weights["features.0.0.weight"]
        self.load_state_dict({**own, **weights, "features.0.0.weight": stem})

    def fresh(self) -> list[nn.Parameter]:
        """Parameters that the single reader doesn't have."""
        return [*self.exchange.parameters(), *self.weight.parameters(), *self.strongest.parameters()]

    def forward(self, x: Tensor) -> Tensor:
        lights = x.shape[1]
        y = torch.cat([_two_views(x.flatten(0, 1).unsqueeze(1)), _differences(x).flatten(0, 1).unsqueeze(1)], 1)
        for number, module in enumerate(self.features):
            y = module(y)
            if str(number) in self.exchange:
                y = self.exchange[str(number)](y, lights)
        columns = y[:, :, 0].transpose(1, 2)
        columns = columns.reshape(-1, lights, *columns.shape[1:])
        read, _ = self.along(self.drop(self._pool(columns)))
        return self.letters(read).reshape(read.shape[0], -1, CLASSES)

    def _pool(self, columns: Tensor) -> Tensor:
        """(n, lights, t, column) -> (n, t, column)."""
        weights = self.weight(columns).softmax(1).unsqueeze(4)
        parts = columns.reshape(*columns.shape[:3], HEADS, columns.shape[3] // HEADS)
        return (weights * parts).sum(1).flatten(2) + self.strongest(columns.amax(1) - columns.mean(1))


def _differences(x: Tensor) -> Tensor:
    """What each light changes against the mean of all, in logarithms so that the stone's own colour cancels."""
    depth = torch.log(x + 0.05)
    differing = depth - depth.mean(1, keepdim=True)
    flat = differing.flatten(0, 1).unsqueeze(1)
    differing = (flat - _box(flat)).reshape(x.shape)  # without the lamps' own falloff
    spread = (differing * differing).mean((1, 2, 3), keepdim=True).sqrt()
    return differing / (spread + 0.02)

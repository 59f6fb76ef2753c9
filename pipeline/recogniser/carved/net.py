"""The network: a grey line crop in, letter scores per time step out.

Convolutions bring 48 rows down to one and four columns to one; a two-layer bidirectional LSTM reads
along the line; its every column gives two time steps, so that narrow letters such as `ll` still
have a step each and one between them. Trained with CTC, class 0 is the blank.
"""

import torch
import torch.nn.functional as F
from torch import Tensor, nn

from carved import text

COLUMNS_PER_LSTM_STEP = 4
STEPS_PER_COLUMN = 2
TIME_STRIDE = COLUMNS_PER_LSTM_STEP // STEPS_PER_COLUMN  # input columns per time step
CLASSES = len(text.CLASSES) + 1
DROPOUT = 0.05  # little, for no line is ever seen twice


def _conv(inputs: int, outputs: int) -> nn.Sequential:
    return nn.Sequential(
        nn.Conv2d(inputs, outputs, 3, 1, 1, bias=False), nn.BatchNorm2d(outputs), nn.SiLU(inplace=True)
    )


class _Residual(nn.Module):
    def __init__(self, channels: int):
        super().__init__()
        self.first = _conv(channels, channels)
        self.second = nn.Sequential(nn.Conv2d(channels, channels, 3, 1, 1, bias=False), nn.BatchNorm2d(channels))

    def forward(self, x: Tensor) -> Tensor:
        return F.silu(x + self.second(self.first(x)))


class LineReader(nn.Module):
    """x (n, 1, 48, w) of 0..1, w a multiple of 4 -> logits (n, w/2, CLASSES)."""

    def __init__(self, widths: tuple[int, ...] = (48, 80, 144, 224, 320), column: int = 384, hidden: int = 288):
        super().__init__()
        stem, one, two, three, four = widths
        self.features = nn.Sequential(
            _conv(2, stem), nn.MaxPool2d(2),
            _conv(stem, one), _Residual(one), nn.MaxPool2d(2),
            _conv(one, two), _Residual(two), _Residual(two), nn.MaxPool2d((2, 1)),
            _conv(two, three), _Residual(three), _Residual(three), nn.MaxPool2d((2, 1)),
            _conv(three, four), _Residual(four),
            nn.Conv2d(four, column, (3, 1), bias=False), nn.BatchNorm2d(column), nn.SiLU(inplace=True),
        )  # fmt: skip
        self.drop = nn.Dropout(DROPOUT)
        self.along = nn.LSTM(column, hidden, 2, bidirectional=True, batch_first=True, dropout=DROPOUT)
        self.letters = nn.Linear(2 * hidden, STEPS_PER_COLUMN * CLASSES)

    def forward(self, x: Tensor) -> Tensor:
        columns = self.features(_two_views(x)).squeeze(2).transpose(1, 2)
        read, _ = self.along(self.drop(columns))
        return self.letters(read).reshape(read.shape[0], -1, CLASSES)


def _two_views(x: Tensor) -> Tensor:
    """The crop standardised as a whole, and with its local contrast evened out."""
    mean = x.mean((2, 3), keepdim=True)
    spread = ((x - mean) ** 2).mean((2, 3), keepdim=True).sqrt()
    whole = (x - mean) / (spread + 0.02)
    local_mean = _box(x)
    variance = (_box(x * x) - local_mean * local_mean).clamp(min=0)
    return torch.cat([whole, (x - local_mean) / (variance.sqrt() + 0.01)], 1)


def _box(x: Tensor, side: int = 17) -> Tensor:
    half = side // 2
    x = F.pad(x, (half, half, half, half), mode="replicate")
    return F.avg_pool2d(F.avg_pool2d(x, (side, 1), 1), (1, side), 1)

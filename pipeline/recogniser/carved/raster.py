"""Small picture operations shared by stone and camera. Pictures are (n, 1, h, w)."""

import torch
import torch.nn.functional as F
from torch import Tensor


def smoothstep(x: Tensor, low, high) -> Tensor:
    t = ((x - low) / (high - low)).clamp(0, 1)
    return t * t * (3 - 2 * t)


def blur(x: Tensor, sigma: Tensor | float, radius: int) -> Tensor:
    """Separable Gaussian blur, sigma per line (n, 1, 1, 1) or one for all."""
    lines, _, rows, columns = x.shape
    taps = torch.arange(-radius, radius + 1, device=x.device, dtype=x.dtype)
    spread = torch.as_tensor(sigma, device=x.device, dtype=x.dtype).reshape(-1, 1).clamp(min=0.12)
    kernel = torch.exp(-(taps**2) / (2 * spread**2))
    kernel = (kernel / kernel.sum(1, keepdim=True)).expand(lines, -1)
    width = 2 * radius + 1
    y = F.pad(x.reshape(1, lines, rows, columns), (radius, radius, 0, 0), mode="replicate")
    y = F.conv2d(y, kernel.reshape(lines, 1, 1, width), groups=lines)
    y = F.pad(y, (0, 0, radius, radius), mode="replicate")
    return F.conv2d(y, kernel.reshape(lines, 1, width, 1), groups=lines).reshape(lines, 1, rows, columns)

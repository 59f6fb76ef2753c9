"""Checkpoints: all of a run to go on from, and its weights alone to keep elsewhere.

`state.pt` holds everything (weights, averaged weights, optimiser); a run goes on from it as if it had
not stopped. `weights.0`, `weights.1`, ... hold the averaged weights in half precision, in pieces of
`PIECE_BYTES` at most; they also go to a second folder where one is named, and are enough to go on
from with a fresh optimiser, and to export.
"""

import io
import os
from pathlib import Path

import torch

PIECE_BYTES = 14 << 20


def save_state(folder: Path, state: dict) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    partial = folder / "state.partial"
    torch.save(state, partial)
    os.replace(partial, folder / "state.pt")


def load_state(folder: Path, device: torch.device) -> dict | None:
    path = folder / "state.pt"
    return torch.load(path, map_location=device, weights_only=False) if path.exists() else None


def save_weights(folder: Path, name: str, weights: dict[str, torch.Tensor], progress: dict) -> None:
    """Writes `name.0`, `name.1`, ... ; each is replaced whole, so a broken run leaves the last good set or none."""
    folder.mkdir(parents=True, exist_ok=True)
    buffer = io.BytesIO()
    half = {key: value.half() if value.is_floating_point() else value for key, value in weights.items()}
    torch.save({"weights": half, "progress": progress}, buffer)
    content = buffer.getvalue()
    for index, start in enumerate(range(0, len(content), PIECE_BYTES)):
        partial = folder / f"{name}.partial"
        partial.write_bytes(content[start : start + PIECE_BYTES])
        os.replace(partial, folder / f"{name}.{index}")


def load_weights(folder: Path, name: str) -> dict | None:
    """{"weights": fp32 tensors on the CPU, "progress": ...}, or None where there are none."""
    pieces = sorted(folder.glob(f"{name}.[0-9]"))
    if not pieces:
        return None
    loaded = torch.load(io.BytesIO(b"".join(p.read_bytes() for p in pieces)), map_location="cpu")
    loaded["weights"] = {k: v.float() if v.is_floating_point() else v for k, v in loaded["weights"].items()}
    return loaded

"""Trains the line recogniser on rendered stone until its minutes are used up.

    python3 -m carved.train --minutes 19 --folder runs/carved --out "$OUT"
    torchrun --nproc-per-node 2 -m carved.train ...      # two GPUs

Minutes count over all calls of the same run: a call goes on from `state.pt` in --folder, or from the
pieces of averaged weights there. --stop-after ends a call early, leaving the schedule as it is.
"""

import argparse
import copy
import itertools
import math
import os
import time
from pathlib import Path

import torch
import torch.distributed as dist
import torch.nn.functional as F
from torch import Tensor

from carved import checkpoint, config, glyphs, text, typefaces
from carved.net import LineReader
from carved.stone import StoneRenderer

_CLASS_OF = {character: index + 1 for index, character in enumerate(text.CLASSES)}
WEIGHTS_NAME = "carved-weights"


class MaskBatches(torch.utils.data.IterableDataset):
    """Batches of glyph masks with their labels as (lengths, all classes in a row)."""

    def __init__(self, seed: int, rank: int):
        self._seed, self._rank = seed, rank

    def __iter__(self):
        worker = torch.utils.data.get_worker_info()
        number = worker.id if worker else 0
        seed = self._seed * 1_000_003 + self._rank * 10_007 + number * 101
        for masks, labels in glyphs.batches(seed, typefaces.trained(), config.BATCH_LINES):
            lengths = torch.tensor([len(label) for label in labels])
            classes = torch.tensor([_CLASS_OF[c] for label in labels for c in label])
            yield torch.from_numpy(masks), lengths, classes


def ctc(logits: Tensor, lengths: Tensor, classes: Tensor) -> Tensor:
    log_probabilities = F.log_softmax(logits.float(), 2).transpose(0, 1)
    steps = torch.full((logits.shape[0],), logits.shape[1], dtype=torch.long)
    return F.ctc_loss(log_probabilities, classes, steps, lengths, zero_infinity=True)


def letter_errors(logits: Tensor, lengths: Tensor, classes: Tensor, lines: int = 48) -> float:
    """Edit distance of the best path over label length, on the first few lines of a batch."""
    best = logits[:lines].argmax(2).cpu().tolist()
    truth, start, wrong, total = classes.tolist(), 0, 0, 0
    for path, length in zip(best, lengths.tolist()):
        wanted = truth[start : start + length]
        start += length
        read = [key for key, _ in itertools.groupby(path) if key]
        wrong, total = wrong + edit_distance(read, wanted), total + length
    return wrong / max(1, total)


def edit_distance(a, b) -> int:
    row = list(range(len(b) + 1))
    for i, x in enumerate(a, 1):
        before, row[0] = row[0], i
        for j, y in enumerate(b, 1):
            before, row[j] = row[j], min(row[j] + 1, row[j - 1] + 1, before + (x != y))
    return row[-1]


class Trainer:
    def __init__(self, arguments: argparse.Namespace):
        self.run, self.out = Path(arguments.folder), Path(arguments.out) if arguments.out else None
        self.total_seconds = arguments.minutes * 60
        self.rank, self.world = int(os.environ.get("RANK", 0)), int(os.environ.get("WORLD_SIZE", 1))
        cuda = torch.cuda.is_available()
        self.device = torch.device("cuda", int(os.environ.get("LOCAL_RANK", 0))) if cuda else torch.device("cpu")
        if cuda:
            torch.cuda.set_device(self.device)
            torch.backends.cudnn.benchmark = True
            torch.backends.cuda.matmul.allow_tf32 = True
            torch.backends.cudnn.allow_tf32 = True
        if self.world > 1:
            dist.init_process_group("nccl" if cuda else "gloo")
        torch.manual_seed(config.SEED)
        self.net = self.network(arguments).to(self.device).to(memory_format=torch.channels_last)
        self.average = copy.deepcopy(self.net).eval()
        self.optimiser = torch.optim.AdamW(self.groups(), lr=config.LEARNING_RATE, betas=(0.9, 0.98), fused=cuda)
        self.step, self.lines, self.seconds, self.warm_from = 0, 0, 0.0, 0
        self._resume()
        self.trained = (
            torch.nn.parallel.DistributedDataParallel(
                self.net, [self.device.index] if cuda else None, broadcast_buffers=False, gradient_as_bucket_view=True
            )
            if self.world > 1 else self.net
        )  # fmt: skip
        # A resumed run draws other stones than the ones it has seen.
        seed = config.SEED * 1000 + self.step
        self.renderer = self.stones(seed * 2 + self.rank)
        torch.manual_seed(seed + self.rank)
        loader = torch.utils.data.DataLoader(
            MaskBatches(seed, self.rank), batch_size=None, num_workers=arguments.workers, pin_memory=cuda,
            prefetch_factor=3 if arguments.workers else None,
        )  # fmt: skip
        self.batches = iter(loader)

    def network(self, arguments: argparse.Namespace) -> torch.nn.Module:
        return LineReader()

    def groups(self) -> list[dict]:
        """What the optimiser is to move, and how."""
        matrices = [p for p in self.net.parameters() if p.ndim > 1]
        vectors = [p for p in self.net.parameters() if p.ndim <= 1]
        return [{"params": matrices, "weight_decay": config.WEIGHT_DECAY}, {"params": vectors, "weight_decay": 0.0}]

    def stones(self, seed: int) -> StoneRenderer:
        return StoneRenderer(seed, self.device)

    def _resume(self) -> None:
        state = checkpoint.load_state(self.run, self.device)
        if state:
            self.net.load_state_dict(state["net"])
            self.average.load_state_dict(state["average"])
            self.optimiser.load_state_dict(state["optimiser"])
            progress = state["progress"]
        else:
            loaded = checkpoint.load_weights(self.run, WEIGHTS_NAME)
            if not loaded:
                return
            self.net.load_state_dict(loaded["weights"])
            self.average.load_state_dict(loaded["weights"])
            progress = loaded["progress"]
            self.warm_from = progress["step"]
        self.step, self.lines, self.seconds = progress["step"], progress["lines"], progress["seconds"]
        self._say(f"goes on from step {self.step}, {self.seconds / 60:.1f} minutes in")

    def _say(self, words: str) -> None:
        if self.rank == 0:
            print(words, flush=True)
            self.run.mkdir(parents=True, exist_ok=True)
            with open(self.run / "log.txt", "a", encoding="utf-8") as log:
                log.write(words + "\n")

    def _learning_rate(self) -> float:
        warm = min(1.0, (self.step - self.warm_from + 1) / (config.WARM_UP_STEPS if self.warm_from == 0 else 150))
        done = min(1.0, self.seconds / self.total_seconds)
        return config.LEARNING_RATE * warm * (0.985 * 0.5 * (1 + math.cos(math.pi * done)) + 0.015)

    def _one_step(self) -> float:
        waited = time.perf_counter()
        masks, lengths, classes = next(self.batches)
        waited = time.perf_counter() - waited
        masks = masks.to(self.device, non_blocking=True)
        classes_there = classes.to(self.device, non_blocking=True)
        hard = min(1.0, self.step / config.HARDENING_STEPS)
        wear = config.LEAST_WEAR + (config.MOST_WEAR - config.LEAST_WEAR) * hard
        severity = config.LEAST_SEVERITY + (config.MOST_SEVERITY - config.LEAST_SEVERITY) * hard
        pictures = self.renderer.render(masks, (0.0, wear), (0.0, severity))
        pictures = pictures.contiguous(memory_format=torch.channels_last)
        for group in self.optimiser.param_groups:
            group["lr"] = self._learning_rate()
        with torch.autocast(self.device.type, dtype=torch.bfloat16, enabled=self.device.type == "cuda"):
            logits = self.trained(pictures)
        loss = ctc(logits, lengths, classes_there)
        self.optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(self.net.parameters(), config.GRADIENT_LIMIT)
        self.optimiser.step()
        self.step += 1
        self.lines += masks.shape[0] * self.world
        self._follow()
        self.last = (loss, logits, lengths, classes, pictures)
        return waited

    @torch.no_grad()
    def _follow(self) -> None:
        """The averaged weights, and the averages batches are normalised by, follow the trained ones; these are exported."""
        since = self.step - self.warm_from
        decay = min(config.AVERAGE_DECAY, (1 + since) / (10 + since))
        averaged = [v for v in self.average.state_dict().values() if v.is_floating_point()]
        torch._foreach_lerp_(averaged, [v for v in self.net.state_dict().values() if v.is_floating_point()], 1 - decay)

    def _save(self) -> None:
        if self.rank:
            return
        progress = {"step": self.step, "lines": self.lines, "seconds": self.seconds}
        state = {
            "net": self.net.state_dict(), "average": self.average.state_dict(),
            "optimiser": self.optimiser.state_dict(), "progress": progress,
        }  # fmt: skip
        checkpoint.save_state(self.run, state)
        for folder in filter(None, (self.run, self.out)):
            checkpoint.save_weights(folder, WEIGHTS_NAME, self.average.state_dict(), progress)
        if self.out:
            (self.out / "carved-log.txt").write_text((self.run / "log.txt").read_text(encoding="utf-8"), encoding="utf-8")

    def _stopping(self, stop_after: float | None, call_seconds: float) -> bool:
        """Whether to end now. All processes keep to the clock of the first, or their learning rates part."""
        stop = self.seconds >= self.total_seconds or (stop_after is not None and call_seconds >= stop_after)
        if self.world > 1:
            shared = torch.tensor([self.seconds, float(stop)], dtype=torch.float64, device=self.device)
            dist.broadcast(shared, 0)
            self.seconds, stop = shared[0].item(), bool(shared[1].item())
        return stop

    def train(self, stop_after: float | None) -> None:
        began = saved = logged = time.monotonic()
        before, waiting, last_lines, call_steps = self.seconds, 0.0, self.lines, 0
        while True:
            waiting += self._one_step()
            call_steps += 1
            if call_steps % 10:
                continue
            now = time.monotonic()
            self.seconds = before + now - began
            if now - logged > config.LOG_SECONDS:
                loss, logits, lengths, classes, _ = self.last
                speed = (self.lines - last_lines) / (now - logged)
                self._say(
                    f"{self.seconds / 60:.2f} min step {self.step} lines {self.lines} loss {loss.item():.4f} "
                    f"errors {letter_errors(logits, lengths, classes):.3f} rate {self._learning_rate():.2e} "
                    f"{speed:.0f} lines/s waited {waiting:.1f} s"
                )
                logged, last_lines, waiting = now, self.lines, 0.0
            if now - saved > config.SAVE_SECONDS:
                self._save()
                saved = time.monotonic()
            if self._stopping(stop_after, now - began):
                break
        self._save()
        self._say(f"done at step {self.step}: {self.lines} lines, {self.seconds / 60:.1f} minutes")


def profile(trainer: Trainer, steps: int = 12) -> None:
    """Prints what the GPU spends its time on."""
    for _ in range(8):
        trainer._one_step()
    with torch.profiler.profile(activities=[torch.profiler.ProfilerActivity.CUDA, torch.profiler.ProfilerActivity.CPU]) as taken:
        for _ in range(steps):
            trainer._one_step()
        torch.cuda.synchronize()
    print(taken.key_averages().table(sort_by="self_cuda_time_total", row_limit=28, max_name_column_width=60), flush=True)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", type=float, required=True, help="training time of the whole run, over all calls")
    parser.add_argument("--folder", required=True, help="folder of the run: state, weights and log")
    parser.add_argument("--out", help="second folder that also gets weights and log, in case the first is lost")
    parser.add_argument("--workers", type=int, default=14, help="processes that set glyph masks")
    parser.add_argument("--stop-after", type=float, help="seconds after which this call ends")
    parser.add_argument("--profile", action="store_true", help="print where the GPU's time goes, then end")
    arguments = parser.parse_args()
    trainer = Trainer(arguments)
    if arguments.profile:
        profile(trainer)
    else:
        trainer.train(arguments.stop_after)
    os._exit(0)  # loader processes may be in the middle of a batch nobody waits for


if __name__ == "__main__":
    main()

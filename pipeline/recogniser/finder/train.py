"""Trains the line finder on rendered pages: python3 -m finder.train MINUTES FOLDER [WORKERS].

Run from pipeline/recogniser. Started again with the same folder it goes on where it was saved, at
most a minute back; MINUTES counts all its starts together. FOLDER receives weights.pt (averaged
weights), net.pt and moments.pt (to go on from), log.txt, samples.jpg and, at the end, DONE.
"""

import argparse
import copy
import math
import os
import random
import time
from pathlib import Path

import cv2
import numpy as np
import torch

from . import losses, pages
from .network import LineFinder
from .shading import photograph

PEAK_RATE = 2e-3
WARM_UP_STEPS = 300
SAVE_SECONDS = 60
CLOSE_SHARE = 0.18  # of the batches, enlarged two to four times


def _save(path, value):
    partial = path.with_suffix(".partial")
    torch.save(value, partial)
    os.replace(partial, path)


class Training:
    def __init__(self, options):
        self.options = options
        self.folder = Path(options.folder)
        self.folder.mkdir(parents=True, exist_ok=True)
        self.device = "cuda" if torch.cuda.is_available() else "cpu"
        torch.manual_seed(options.seed)
        self.net = LineFinder().to(self.device).to(memory_format=torch.channels_last)
        self.average = copy.deepcopy(self.net).eval()
        matrices = [p for p in self.net.parameters() if p.ndim > 1]
        vectors = [p for p in self.net.parameters() if p.ndim <= 1]
        groups = [{"params": matrices, "weight_decay": 0.02}, {"params": vectors, "weight_decay": 0.0}]
        self.optimizer = torch.optim.AdamW(groups, lr=PEAK_RATE, betas=(0.9, 0.98))
        self.step, self.seen, self.spent, self.warm_from = 0, 0, 0.0, 0
        self._resume()
        self.dice = random.Random(options.seed + self.step)
        self.log = open(self.folder / "log.txt", "a", encoding="utf-8")

    def _resume(self):
        if not (self.folder / "net.pt").exists():
            return
        saved = torch.load(self.folder / "net.pt", map_location="cpu")
        self.net.load_state_dict(saved["net"])
        self.step, self.seen, self.spent = saved["step"], saved["seen"], saved["spent"]
        self.average.load_state_dict(torch.load(self.folder / "weights.pt", map_location="cpu"))
        torch.manual_seed(self.options.seed + self.step)
        if not (self.folder / "moments.pt").exists():  # weights put back by carved.restore
            self.warm_from = self.step
            return
        moments = torch.load(self.folder / "moments.pt", map_location="cpu")
        for parameter, (first, second) in zip(self.net.parameters(), moments):
            self.optimizer.state[parameter] = {
                "step": torch.tensor(float(self.step)),
                "exp_avg": first.float().to(parameter.device),
                "exp_avg_sq": second.float().to(parameter.device),
            }

    def save(self):
        # Moments as bfloat16: half the size, and near enough to go on with.
        moments = []
        for parameter in self.net.parameters():
            state = self.optimizer.state[parameter]
            moments.append((state["exp_avg"].bfloat16().cpu(), state["exp_avg_sq"].bfloat16().cpu()))
        _save(self.folder / "moments.pt", moments)
        _save(self.folder / "weights.pt", {k: v.cpu() for k, v in self.average.state_dict().items()})
        _save(self.folder / "net.pt", {"net": {k: v.cpu() for k, v in self.net.state_dict().items()}, "step": self.step, "seen": self.seen, "spent": self.spent})

    def _average_in(self):
        since = self.step - self.warm_from
        keep = min(0.9985, (1 + since) / (10 + since))
        with torch.no_grad():
            for mean, new in zip(self.average.parameters(), self.net.parameters()):
                mean.lerp_(new, 1 - keep)
            for mean, new in zip(self.average.buffers(), self.net.buffers()):
                if mean.is_floating_point():
                    mean.lerp_(new, 1 - keep)
                else:
                    mean.copy_(new)

    def _say(self, text):
        print(text, flush=True)
        self.log.write(text + "\n")
        self.log.flush()

    def run(self):
        options = self.options
        targets = pages.TARGETS if options.size == 1024 else (options.size,)
        data = pages.Pages(options.seed + 7919 * (1 + self.step), options.batch, options.size, targets)
        more = {"prefetch_factor": 3} if options.workers else {}
        loader = torch.utils.data.DataLoader(data, batch_size=None, num_workers=options.workers, pin_memory=self.device == "cuda", **more)
        self._say(f"{sum(p.numel() for p in self.net.parameters()) / 1e6:.2f} M parameters on {self.device}; from step {self.step}, {self.spent / 60:.1f} min spent")
        before, begun, last_save, waited = self.spent, time.time(), time.time(), 0.0
        stream = iter(loader)
        while self.spent < options.minutes * 60 and time.time() - begun < options.stop_after:
            asked = time.time()
            target, batch = next(stream)
            waited += time.time() - asked
            self.spent = before + time.time() - begun
            loss, found, x, truth = self._learn(int(target), batch)
            if self.step % 50 == 0 or self.step <= 3:
                listed = " ".join(f"{k} {v.item():.4f}" for k, v in found.items())
                self._say(f"{self.spent / 60:.2f} min step {self.step} pages {self.seen} loss {loss.item():.4f} {listed} waited {waited:.0f} s")
            if self.step == 40 or self.step % 1000 == 0:
                self._picture(x, truth)
            if time.time() - last_save > SAVE_SECONDS:
                self.save()
                last_save = time.time()
        self.save()
        self._picture(x, truth)
        if self.spent < options.minutes * 60:
            return
        (self.folder / "DONE").write_text(f"{self.step} steps, {self.seen} pages, {self.spent:.0f} s\n", encoding="utf-8")
        self._say("done")

    def _learn(self, target, batch):
        done = min(1.0, self.spent / (self.options.minutes * 60))
        rate = PEAK_RATE * min(1.0, (self.step - self.warm_from + 1) / WARM_UP_STEPS) * (0.99 * (0.5 + 0.5 * math.cos(math.pi * done)) + 0.01)
        for group in self.optimizer.param_groups:
            group["lr"] = rate
        masks = [batch[name].to(self.device, non_blocking=True) for name in pages.MASKS]
        x, visible = photograph(*masks, target, most_wear=0.5 + 0.4 * min(1.0, self.step / 1500))
        truth = pages.truth(batch, self.device)
        truth["ignore"] = torch.maximum(truth["ignore"], truth["band"] * (1 - visible))
        if self.dice.random() < CLOSE_SHARE:
            factor = self.dice.choice((2, 2, 3, 4))
            x, truth = pages.enlarged(x, truth, factor, self.dice.random(), self.dice.random())
            x = (x + self.dice.uniform(0, 0.03) * torch.randn_like(x)).clamp(0, 1)
        x = x.contiguous(memory_format=torch.channels_last)
        with torch.autocast("cuda" if self.device == "cuda" else "cpu", dtype=torch.bfloat16, enabled=self.device == "cuda"):
            raw = self.net.raw(x)
        found = losses.parts(raw.float(), truth)
        loss = losses.total(found)
        self.optimizer.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(self.net.parameters(), 5.0)
        self.optimizer.step()
        self.step += 1
        self.seen += x.shape[0]
        self._average_in()
        return loss, found, x, truth

    @torch.no_grad()
    def _picture(self, x, truth):
        """Pages, their truth and what the averaged network makes of them, side by side."""
        rows = []
        answer = self.average(x[:4].contiguous())
        for i in range(min(4, x.shape[0])):
            grey = (x[i, 0] * 255).byte().cpu().numpy()
            size = grey.shape[::-1]
            wanted = torch.stack([truth["core"][i], truth["face"][i] * 0.4 + truth["emblem"][i] * 0.6, truth["other"][i]], 2)
            given = torch.stack([answer[i, 0], answer[i, 4] * 0.4 + answer[i, 6] * 0.6, answer[i, 5]], 2)
            tiles = [cv2.cvtColor(grey, cv2.COLOR_GRAY2BGR)]
            for maps in (wanted, given):
                painted = (maps.clamp(0, 1) * 255).byte().cpu().numpy()
                tiles.append(tiles[0] // 2 + cv2.resize(painted, size) // 2)
            rows.append(np.hstack([cv2.resize(t, (640, 640), interpolation=cv2.INTER_AREA) for t in tiles]))
        cv2.imwrite(str(self.folder / "samples.jpg"), np.vstack(rows), [cv2.IMWRITE_JPEG_QUALITY, 85])


def main():
    parser = argparse.ArgumentParser(description="Trains the line finder.")
    parser.add_argument("minutes", type=float, help="time to train, all starts together")
    parser.add_argument("folder", help="where checkpoints and the log go")
    parser.add_argument("workers", type=int, nargs="?", default=14)
    parser.add_argument("--stop-after", type=float, default=math.inf, help="seconds after which this start ends, the rate's course as it is")
    parser.add_argument("--batch", type=int, default=8)
    parser.add_argument("--size", type=int, default=1024, help="side of a page; smaller only to try things out")
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    if torch.cuda.is_available():
        torch.backends.cudnn.benchmark = True
        torch.backends.cuda.matmul.allow_tf32 = True
        torch.backends.cudnn.allow_tf32 = True
    Training(options).run()


if __name__ == "__main__":
    main()

"""Trains the reader of sets, from the weights of the single reader, until its minutes are used up.

    python3 -m carved.restore reader ../src/main/resources/rakelight/reading/carved-letters.onnx runs/single --minutes 47
    torchrun --nproc-per-node 2 -m lights.train --minutes 22 --single runs/single --folder runs/sets

Goes on and saves as `carved.train` does, on one GPU or more.
"""

import argparse
import os
import random
import time
from pathlib import Path

import torch

from carved import checkpoint, config
from carved.train import WEIGHTS_NAME, Trainer, ctc, profile
from lights.net import SetReader
from lights.stone import SetRenderer

# Lights of a set and how often; single photographs are rendered as for the single reader.
SHARE = {1: 0.30, 2: 0.14, 3: 0.16, 4: 0.14, 5: 0.11, 6: 0.09, 7: 0.03, 8: 0.03}
WEAR_LEAN = 1.5  # of sets: more worn lines than the single reader is trained with, which is 2
RATE, FRESH_RATE = 3e-4, 1.2e-3  # peaks, of the single reader's weights and of the new ones
STEADY_SHARE = 0.35  # of the minutes at the peak; then linearly down
LEAST_RATE = 0.01  # of the peak
WARM_UP_STEPS, WARM_UP_STEPS_AGAIN = 300, 60  # at the beginning, and of a run that goes on from weights


class SetTrainer(Trainer):
    def network(self, arguments: argparse.Namespace) -> SetReader:
        self.single = Path(arguments.single)
        self.rng = random.Random(config.SEED + 1)  # the same for all processes: they wait for each other
        self.rest = None  # of a batch of masks
        torch.backends.cudnn.benchmark = False  # shapes change with the lights: trying algorithms for each takes seconds
        return SetReader()

    def groups(self) -> list[dict]:
        fresh = {id(p) for p in self.net.fresh()}
        kinds = [(of_new, matrix) for of_new in (False, True) for matrix in (False, True)]
        return [
            {
                "params": [p for p in self.net.parameters() if (id(p) in fresh) == of_new and (p.ndim > 1) == matrix],
                "weight_decay": config.WEIGHT_DECAY if matrix else 0.0, "peak": FRESH_RATE if of_new else RATE,
            }
            for of_new, matrix in kinds
        ]  # fmt: skip

    def stones(self, seed: int) -> SetRenderer:
        return SetRenderer(seed, self.device)

    def _resume(self) -> None:
        super()._resume()
        if self.step == 0:
            single = checkpoint.load_weights(self.single, WEIGHTS_NAME)
            if single is None:
                raise FileNotFoundError(f"{self.single}: no {WEIGHTS_NAME}.0; put the single reader's weights there with carved.restore")
            self.net.take_single(single["weights"])
            self.average.load_state_dict(self.net.state_dict())
            self._say(f"starts from the single reader, {single['progress']['lines']} lines seen")
        # Batches of one light and of eight differ in what they hold; norms that followed each batch would be right for neither.
        for module in self.net.modules():
            if isinstance(module, torch.nn.BatchNorm2d):
                module.eval()

    def _learning_rate(self) -> float:
        """As a share of the peak."""
        warm = min(1.0, (self.step - self.warm_from + 1) / (WARM_UP_STEPS if self.warm_from == 0 else WARM_UP_STEPS_AGAIN))
        done = min(1.0, self.seconds / self.total_seconds)
        return warm * max(LEAST_RATE, min(1.0, (1 - done) / (1 - STEADY_SHARE)))

    def _masks(self) -> tuple[torch.Tensor, torch.Tensor, torch.Tensor, int]:
        """Masks with their labels for one step, and of how many lights; a batch of masks serves several steps."""
        if self.rest is None or len(self.rest[1]) == 0:
            self.rest = next(self.batches)
            self.room = len(self.rest[1])
        masks, lengths, classes = self.rest
        lights = self.rng.choices(list(SHARE), list(SHARE.values()))[0]
        take = min(len(lengths), max(1, 2 * self.room // lights) if lights > 1 else self.room)
        if len(lengths) - take < self.room // 16:
            take = len(lengths)
        letters = int(lengths[:take].sum())
        self.rest = masks[take:], lengths[take:], classes[letters:]
        return masks[:take], lengths[:take], classes[:letters], lights

    def _one_step(self) -> float:
        waited = time.perf_counter()
        masks, lengths, classes, lights = self._masks()
        waited = time.perf_counter() - waited
        classes_there = classes.to(self.device, non_blocking=True)
        wear, severity = (0.0, config.MOST_WEAR), (0.0, config.MOST_SEVERITY)
        if lights == 1:
            pictures = self.renderer.render(masks, wear, severity)
        else:
            pictures = self.renderer.render_sets(masks, lights, wear, severity, WEAR_LEAN)
        for group in self.optimiser.param_groups:
            group["lr"] = group["peak"] * self._learning_rate()
        with torch.autocast(self.device.type, dtype=torch.bfloat16, enabled=self.device.type == "cuda"):
            logits = self.trained(pictures)
        loss = ctc(logits, lengths, classes_there)
        self.optimiser.zero_grad(set_to_none=True)
        loss.backward()
        torch.nn.utils.clip_grad_norm_(self.net.parameters(), config.GRADIENT_LIMIT)
        self.optimiser.step()
        self.step += 1
        self.lines += len(lengths) * self.world
        self._follow()
        self.last = (loss, logits, lengths, classes, pictures)
        return waited


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--minutes", type=float, required=True, help="training time of the whole run, over all calls")
    parser.add_argument("--single", required=True, help="folder with the weights of the single reader")
    parser.add_argument("--folder", required=True, help="folder of the run: state, weights and log")
    parser.add_argument("--out", help="second folder that also gets weights and log, in case the first is lost")
    parser.add_argument("--workers", type=int, default=14, help="processes that set glyph masks")
    parser.add_argument("--stop-after", type=float, help="seconds after which this call ends")
    parser.add_argument("--profile", action="store_true", help="print where the GPU's time goes, then end")
    arguments = parser.parse_args()
    trainer = SetTrainer(arguments)
    if arguments.profile:
        profile(trainer)
    else:
        trainer.train(arguments.stop_after)
    os._exit(0)  # loader processes may be in the middle of a batch nobody waits for


if __name__ == "__main__":
    main()

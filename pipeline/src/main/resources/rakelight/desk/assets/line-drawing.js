// A line shown on the stone by hand: its middle as points from left to right, and how high its capitals are.

import { byId, drawing, make } from "./page-parts.js";

/** The middle of a line from its frame: n points along the top, then n along the foot from right to left. */
export function middleOf(frame) {
  const half = frame.length / 2;
  const foot = frame.slice(half).reverse();
  return thinned(frame.slice(0, half).map(([x, y], i) => [(x + foot[i][0]) / 2, (y + foot[i][1]) / 2]));
}

/** Few enough points to be moved by hand. */
const thinned = (points) =>
  points.length <= 5 ? points : [0, 1, 2, 3, 4].map((i) => points[Math.round((i * (points.length - 1)) / 4)]);

export class LineDrawing {
  /** `stone` gives `place(event)` in pixels of the picture and `redraw()`. */
  constructor(stone) {
    this.stone = stone;
    this.group = drawing("g", { class: "drawing" });
  }

  get active() {
    return this.asked !== undefined;
  }

  /** Lets a person show a line; resolves to `{middle, heightPx}`, or null. */
  show(title, start) {
    this.cancel();
    this.middle = start.middle.map((point) => [...point]);
    this.heightPx = start.heightPx;
    return new Promise((resolve) => {
      this.asked = resolve;
      byId("asked").replaceChildren(
        make(
          "div",
          { class: "question" },
          make("h2", {}, title),
          make("p", {}, "On the stone: click where the line begins, where it bends and where it ends, through the middle of its letters. A point can be dragged, or moved by the arrow keys. The band must cover the letters."),
          make(
            "p",
            { class: "row" },
            make("button", { type: "button", onclick: () => this.#higher(1.1) }, "Higher band"),
            make("button", { type: "button", onclick: () => this.#higher(1 / 1.1) }, "Lower band"),
            make("button", { type: "button", onclick: () => this.#last() }, "Without the last point"),
          ),
          make(
            "p",
            { class: "row" },
            make("button", { type: "button", class: "first", id: "drawn", onclick: () => this.#done() }, "Read it"),
            make("button", { type: "button", onclick: () => this.cancel() }, "Not now"),
          ),
        ),
      );
      byId("asked").hidden = false;
      // The band of the line being read gives way, so that the whole stone can be seen and clicked.
      document.body.classList.add("showing-line");
      byId("stone").scrollIntoView({ block: "nearest" });
      this.stone.redraw();
    });
  }

  cancel() {
    this.#settle(null);
  }

  /** A click on the picture: one more point, in its order from left to right. */
  clicked([x, y]) {
    this.middle.push([x, y]);
    this.middle.sort((a, b) => a[0] - b[0]);
    this.stone.redraw();
  }

  /** The handle under a pointer; undefined where there is none. */
  handle(event) {
    const at = event.target.closest?.("[data-handle]")?.dataset.handle;
    return at === undefined ? undefined : Number(at);
  }

  drag(handle, point) {
    this.middle[handle] = point;
    this.stone.redraw();
  }

  #key(event, handle) {
    const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    if (by) {
      const step = this.heightPx / (event.shiftKey ? 20 : 5);
      this.middle[handle] = this.middle[handle].map((c, i) => c + by[i] * step);
      this.stone.redraw();
      this.group.querySelector(`[data-handle="${handle}"]`)?.focus();
      event.preventDefault();
      event.stopPropagation();
    }
  }

  #higher(factor) {
    this.heightPx *= factor;
    this.stone.redraw();
  }

  #last() {
    this.middle.pop();
    this.stone.redraw();
  }

  #done() {
    if (this.middle.length >= 2) {
      this.#settle({ middle: this.middle.map((p) => p.map((c) => Math.round(c * 10) / 10)), heightPx: Math.round(this.heightPx * 10) / 10 });
    }
  }

  #settle(answer) {
    const asked = this.asked;
    this.asked = undefined;
    if (asked) {
      byId("asked").hidden = true;
      byId("asked").replaceChildren();
      document.body.classList.remove("showing-line");
      this.stone.redraw();
      asked(answer);
    }
  }

  /** Draws the band and its handles; `unit` is a picture's pixels for one of the screen. */
  draw(unit) {
    if (!this.active) {
      this.group.replaceChildren();
      return;
    }
    const shapes = [];
    if (this.middle.length > 1) {
      shapes.push(
        drawing("polyline", {
          class: "drawn-band",
          points: this.middle.map((p) => p.join(",")).join(" "),
          "stroke-width": this.heightPx,
        }),
      );
    }
    this.middle.forEach(([x, y], i) =>
      shapes.push(
        drawing("circle", {
          class: "handle",
          cx: x,
          cy: y,
          r: 9 * unit,
          tabindex: "0",
          role: "button",
          "aria-label": `Point ${i + 1} of ${this.middle.length}`,
          "data-handle": i,
          onkeydown: (event) => this.#key(event, i),
        }),
      ),
    );
    this.group.replaceChildren(...shapes);
    byId("drawn").disabled = this.middle.length < 2;
  }
}

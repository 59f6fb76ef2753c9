// The letter column: the line as a stack of strips, one per relief image and light, aligned, with
// the slots of the lattice below and the column at the cursor lit through all of them.

import { make } from "./page-parts.js";
import { columns, lineOf, openness, plainName } from "./face-model.js";

/** A letter narrower than this can't be compared by eye, nor hit with a finger. */
const NARROWEST_LETTER_PX = 34;
const LOWEST_STRIP_PX = 44;
const HIGHEST_STRIP_PX = 116;

/** The strips may fill this much of the window before they get lower; desk.css has it too. */
const SHARE_OF_WINDOW = 0.46;

/** The telling pictures first: what doesn't fit into the window is a scroll away. */
const ORDER = ["depth", "cut", "contrast", "grey"];

/** Strips as they are stacked: reliefs by how much they tell, then the lights. */
export const stacked = (strips) => {
  const rank = (strip) => {
    const known = ORDER.indexOf(strip.name);
    return known < 0 ? ORDER.length : known;
  };
  return [...strips].sort((a, b) => rank(a) - rank(b));
};

export class LetterColumn {
  constructor(place, onPlace) {
    this.place = place;
    this.onPlace = onPlace;
    this.size = 1;
    this.shown = "";
    this.hidden = new Set();
    this.names = make("div", { class: "strip-names" });
    this.stack = make("div", { class: "stack", onclick: (event) => this.#clicked(event) });
    this.lit = make("div", { class: "lit", "aria-hidden": "true" });
    this.slots = make("div", {
      class: "slots",
      id: "slots",
      role: "listbox",
      tabindex: "0",
      "aria-orientation": "horizontal",
      "aria-label": "Letters of the line",
      "aria-describedby": "keys-in-short",
      onclick: (event) => this.#clicked(event),
    });
    this.tall = make(
      "div",
      { class: "tall", tabindex: "0", role: "group", "aria-label": "Strips of the line", onscroll: () => (this.names.scrollTop = this.tall.scrollTop) },
      this.stack,
    );
    this.wide = make("div", { class: "wide" }, this.tall, this.slots);
    this.scroller = make("div", { class: "scroller" }, this.wide);
    place.replaceChildren(this.names, this.scroller);
    new ResizeObserver(() => this.#fit()).observe(place);
  }

  focus() {
    this.slots.focus({ preventScroll: true });
  }

  /** Larger or smaller strips. */
  resize(factor) {
    this.size = Math.max(0.5, Math.min(3, this.size * factor));
    this.#fit();
  }

  toggle(name) {
    if (!this.hidden.delete(name)) {
      this.hidden.add(name);
    }
    this.shown = "";
    this.show(this.face, this.cursor);
  }

  show(face, cursor) {
    this.face = face;
    this.cursor = cursor;
    this.line = lineOf(face, cursor);
    const strips = stacked(this.line?.strips ?? []);
    const wanted = strips.map((strip) => strip.url).join(" ") + [...this.hidden].join(" ");
    if (wanted !== this.shown) {
      this.shown = wanted;
      this.#strips(strips);
    }
    this.#slots();
    this.#fit();
  }

  #strips(strips) {
    this.names.replaceChildren(
      ...strips.map((strip) =>
        make(
          "button",
          {
            type: "button",
            class: "strip-name",
            "aria-pressed": String(!this.hidden.has(strip.name)),
            title: this.hidden.has(strip.name) ? "Show this strip" : "Hide this strip",
            onclick: () => this.toggle(strip.name),
          },
          strip.name,
        ),
      ),
    );
    const visible = strips.filter((strip) => !this.hidden.has(strip.name));
    this.stack.replaceChildren(
      ...visible.map((strip) =>
        make("img", {
          class: "strip",
          src: strip.url,
          alt: `Line ${this.line.line}, ${strip.name}`,
          draggable: "false",
        }),
      ),
      ...(visible.length > 0 ? [this.lit] : []),
    );
    this.count = visible.length;
  }

  #slots() {
    const letters = this.line?.letters ?? [];
    const active = `slot-${this.cursor.at}`;
    this.slots.replaceChildren(
      ...letters.map((letter, i) => {
        const here = i + 1 === this.cursor.at;
        const best = letter.alternatives?.[0]?.p;
        return make(
          "div",
          {
            id: `slot-${i + 1}`,
            role: "option",
            class: ["slot", openness(letter), letter.erased && "erased",
              letter.field && "field", here && "here"].filter(Boolean).join(" "),
            "aria-selected": String(here),
            "aria-label": `${letter.text || "no sign"}, ${letter.decided ? plainName(letter) : "to be decided"}`,
            "data-at": String(i + 1),
            title: letter.decided ? plainName(letter) : "to be decided",
          },
          make("span", { class: "sign" }, signOf(letter)),
          make("span", { class: "mark" }, letter.decided ? markOf(letter) : percent(best)),
        );
      }),
    );
    if (letters.length > 0) {
      this.slots.setAttribute("aria-activedescendant", active);
    } else {
      this.slots.removeAttribute("aria-activedescendant");
      this.slots.append(make("div", { role: "option", class: "slot none", "aria-selected": "false" }, "no letters"));
    }
    this.slots.setAttribute("aria-label", `Letters of line ${this.cursor.line}`);
  }

  #fit() {
    if (!this.line) {
      return;
    }
    const room = this.scroller.clientWidth;
    const parts = columns(this.line);
    const share = parts.map(([from, to]) => to - from).sort((a, b) => a - b);
    const median = share[Math.floor(share.length / 2)] ?? 1;
    let width = room;
    if (this.count > 0) {
      const aspect = this.line.stripWidthPx / this.line.stripHeightPx;
      const high = Math.max(
        LOWEST_STRIP_PX,
        Math.min(HIGHEST_STRIP_PX, (SHARE_OF_WINDOW * window.innerHeight) / this.count, room / aspect),
      );
      const readable = NARROWEST_LETTER_PX / median / aspect;
      const height = Math.min(HIGHEST_STRIP_PX * 1.5, Math.max(high, readable)) * this.size;
      width = Math.round(height * aspect);
      this.place.style.setProperty("--strip-height", `${height}px`);
    } else {
      width = Math.min(Math.max(room, 0), Math.max(60, parts.length * 64));
    }
    this.wide.style.width = `${width}px`;
    const options = this.slots.children;
    parts.forEach(([from, to], i) => {
      options[i].style.left = `${from * width}px`;
      options[i].style.width = `${(to - from) * width}px`;
    });
    const [from, to] = parts[this.cursor.at - 1] ?? [0, 0];
    this.lit.style.left = `${from * width - 3}px`;
    this.lit.style.width = `${(to - from) * width + 6}px`;
    const centre = ((from + to) / 2) * width;
    const left = this.scroller.scrollLeft;
    const margin = Math.min(120, room / 3);
    if (centre < left + margin || centre > left + room - margin) {
      this.scroller.scrollLeft = centre - room / 2;
    }
  }

  #clicked(event) {
    const box = this.wide.getBoundingClientRect();
    const share = (event.clientX - box.left) / box.width;
    const parts = columns(this.line);
    const at = parts.findIndex(([from, to]) => share >= from && share < to);
    if (at >= 0) {
      this.onPlace({ line: this.cursor.line, at: at + 1 });
    }
    this.focus();
  }
}

export function signOf(letter) {
  if (letter.text) {
    return letter.text;
  }
  return { illegible: "+", lost: "–", blank: "␣" }[letter.standing] ?? "·";
}

/** A sign beside the colour, so that nobody needs to see colour. */
function markOf(letter) {
  return (
    { clear: "✓", unclear: "?", illegible: "*", lost: "#", supplied: "<>", "seen-earlier": "list", blank: "_" }[
      letter.standing
    ] ?? ""
  );
}

/** Nothing where the machine is as good as sure: a hundred says no more and crowds narrow letters. */
const percent = (p) => (p === undefined || p >= 0.995 ? "" : String(Math.round(p * 100)));

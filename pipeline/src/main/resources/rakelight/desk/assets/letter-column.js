// The line being read: the same stretch of stone in one strip above the other, the letters of the lattice below, and the
// column at the cursor lit through all of them.

import { make } from "./page-parts.js";
import { columns, lineOf, openness, pairsOf, partAt, plainName } from "./face-model.js";
import { saidOf, signOf } from "./said.js";

/** A strip is 1.7 capitals high, so that a capital is at least 60 px tall. */
const LOWEST_STRIP_PX = 102;
const HIGHEST_STRIP_PX = 190;

/** A letter narrower than this can't be compared by eye, nor hit with a finger. */
const NARROWEST_LETTER_PX = 30;
const CAPTION_PX = 18;

/** So much of the window may the strips fill; more of them are a scroll away. */
const SHARE_OF_WINDOW = 0.36;

/** The photograph first: it shows what is there and nothing else. Then what tells most. */
const ORDER = ["light-1", "depth", "cut", "contrast"];

const PLAIN_NAMES = {
  depth: "The cut, from several lights",
  cut: "The cut brought out",
  contrast: "The light evened out",
};

const WINDS = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

/** Where light comes from, in words; undefined where nobody has said. */
export const lightWords = (photograph) =>
  photograph?.light?.azimuthDegrees === undefined
    ? undefined
    : `light from the ${WINDS[Math.round(photograph.light.azimuthDegrees / 45) % 8]}`;

/** What a strip is, in plain words. */
export function stripWords(strip, photographs) {
  if (PLAIN_NAMES[strip.name]) {
    return PLAIN_NAMES[strip.name];
  }
  const light = lightWords(photographs.find((one) => one.photograph === strip.photograph));
  return light ? `As photographed, ${light}` : "As photographed";
}

/** Strips as they are stacked. */
export const stacked = (strips) => {
  const rank = (strip) => {
    const known = ORDER.indexOf(strip.name);
    return known < 0 ? ORDER.length : known;
  };
  return [...strips].sort((a, b) => rank(a) - rank(b));
};

export class LetterColumn {
  /** `onPlace` is called where a letter is pointed at, `onShown` with the middle of the lit column across the page. */
  constructor(place, onPlace, onShown) {
    this.place = place;
    this.onPlace = onPlace;
    this.onShown = onShown;
    this.shown = "";
    this.hidden = new Set();
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
    this.tall = make("div", { class: "tall", tabindex: "0", role: "region", "aria-label": "Pictures of the line" }, this.stack);
    this.versions = make("div", { class: "versions" });
    this.wide = make("div", { class: "wide" }, this.tall, this.versions, this.slots);
    this.scroller = make("div", { class: "scroller", onscroll: () => this.tellWhere() }, this.wide);
    this.menu = make("details", { class: "strip-menu" }, make("summary", {}, "Pictures of the line"));
    place.replaceChildren(this.scroller, this.menu);
    new ResizeObserver(() => this.#fit()).observe(place);
  }

  focus() {
    this.slots.focus({ preventScroll: true });
  }

  show(face, cursor) {
    this.face = face;
    this.cursor = cursor;
    this.line = lineOf(face, cursor);
    const part = partAt(this.line, cursor.at);
    const strips = stacked(part?.strips ?? []);
    const wanted = strips.map((strip) => strip.url).join(" ") + [...this.hidden].join(" ");
    this.part = part;
    if (wanted !== this.shown) {
      this.shown = wanted;
      this.#strips(strips);
    }
    this.#versions();
    this.#slots();
    this.#fit();
  }

  /** Both readings over the letters, for whoever settles between them; where they differ it is marked. */
  #versions() {
    const pairs = pairsOf(this.face, this.cursor.line);
    const { first, second } = this.face.settling ?? {};
    this.versions.replaceChildren(
      ...(pairs.length === 0
        ? []
        : [["first", first], ["second", second]].map(([which, reading]) =>
            make(
              "div",
              { class: "version", role: "group", "aria-label": `As ${reading.reader} reads it` },
              make("span", { class: "reader" }, reading.reader),
              ...pairs
                .filter((pair) => pair.at !== undefined)
                .map((pair) =>
                  make(
                    "span",
                    {
                      class: ["said", pair.differs && "differs", pair[which]?.spaceBefore && "spaced"].filter(Boolean).join(" "),
                      "data-place": String(pair.at),
                    },
                    saidOf(pair[which]),
                  ),
                ),
            ),
          )),
    );
  }

  #strips(strips) {
    const words = (strip) => stripWords(strip, this.face.photographs);
    const visible = strips.filter((strip) => !this.hidden.has(strip.name));
    this.stack.replaceChildren(
      ...visible.map((strip) =>
        make(
          "figure",
          { class: "strip" },
          make("figcaption", {}, words(strip)),
          make("img", {
            src: strip.url,
            alt: `Line ${this.line.line}: ${words(strip)}`,
            draggable: "false",
            onerror: (event) => event.target.closest("figure").remove(),
          }),
        ),
      ),
      ...(visible.length > 0 ? [this.lit] : []),
    );
    this.menu.hidden = strips.length < 2;
    this.menu.replaceChildren(
      this.menu.querySelector("summary"),
      ...strips.map((strip) =>
        make(
          "button",
          {
            type: "button",
            "aria-pressed": String(!this.hidden.has(strip.name)),
            onclick: () => this.#toggle(strip.name),
          },
          words(strip),
        ),
      ),
    );
    this.count = visible.length;
  }

  #toggle(name) {
    if (!this.hidden.delete(name)) {
      this.hidden.add(name);
    }
    this.shown = "";
    this.show(this.face, this.cursor);
  }

  #slots() {
    const letters = this.line?.letters ?? [];
    const signs = letters.map((letter, i) => {
      const here = i + 1 === this.cursor.at;
      const best = letter.alternatives?.[0]?.p;
      const state = letter.decided ? plainName(letter) : `${percent(best) && `${percent(best)} per cent, `}to be decided`;
      return make(
        "div",
        {
          id: `slot-${i + 1}`,
          role: "option",
          class: ["slot", openness(letter), letter.erased && "erased", letter.field && "field",
            letter.typing && "typing", i > 0 && letter.spaceBefore && "begins-word", here && "here"].filter(Boolean).join(" "),
          "aria-selected": String(here),
          "aria-label": `${letter.text || "no sign"}${letter.raised ? ", raised" : ""}, ${state}${letter.over ? `, typed over ${letter.over}` : ""}`,
          "data-at": String(i + 1),
          title: state,
        },
        letter.over && make("span", { class: "over", "aria-hidden": "true" }, letter.over),
        make("span", { class: letter.raised ? "sign raised" : "sign", "aria-hidden": "true" }, signOf(letter)),
        make("span", { class: "mark", "aria-hidden": "true" }, letter.decided ? markOf(letter) : percent(best)),
      );
    });
    const beyond = this.cursor.at > letters.length && letters.length > 0;
    this.slots.replaceChildren(
      ...signs,
      ...(letters.length === 0
        ? [make("div", { role: "option", class: "slot none", "aria-selected": "false" }, "no letters")]
        : []),
      ...(beyond
        ? [make("div", { id: `slot-${this.cursor.at}`, role: "option", class: "slot here", "aria-selected": "true", "aria-label": "after the last letter" })]
        : []),
    );
    if (letters.length > 0) {
      this.slots.setAttribute("aria-activedescendant", `slot-${this.cursor.at}`);
    } else {
      this.slots.removeAttribute("aria-activedescendant");
    }
    this.slots.setAttribute("aria-label", `Letters of line ${this.cursor.line}`);
  }

  #fit() {
    if (!this.line) {
      return;
    }
    const room = this.scroller.clientWidth;
    const parts = this.#columns();
    const share = parts.map(([from, to]) => to - from).filter((part) => part > 0).sort((a, b) => a - b);
    const median = share[Math.floor(share.length / 2)] || 1;
    let width;
    if (this.count > 0) {
      const aspect = this.part.stripWidthPx / this.part.stripHeightPx;
      const budget = SHARE_OF_WINDOW * window.innerHeight;
      const together = Math.max(1, Math.min(this.count, Math.floor(budget / (LOWEST_STRIP_PX + CAPTION_PX))));
      const most = Math.max(LOWEST_STRIP_PX, Math.min(HIGHEST_STRIP_PX, budget / together - CAPTION_PX));
      const readable = NARROWEST_LETTER_PX / median / aspect;
      const high = Math.round(Math.min(HIGHEST_STRIP_PX, Math.max(LOWEST_STRIP_PX, readable, Math.min(room / aspect, most))));
      width = Math.round(high * aspect);
      this.place.style.setProperty("--strip-height", `${high}px`);
      this.place.style.setProperty("--stack-height", `${together * (high + CAPTION_PX)}px`);
    } else {
      width = Math.max(Math.min(room, parts.length * 64), parts.length * NARROWEST_LETTER_PX, 60);
      this.place.style.setProperty("--stack-height", "0px");
    }
    this.wide.style.width = `${width}px`;
    const options = this.slots.children;
    parts.forEach(([from, to], i) => {
      options[i].style.left = `${from * width}px`;
      options[i].style.width = `${(to - from) * width}px`;
      options[i].classList.toggle("elsewhere", to <= from);
    });
    for (const said of this.versions.querySelectorAll("[data-place]")) {
      const [left, right] = parts[said.dataset.place - 1] ?? [0, 0];
      said.style.left = `${left * width}px`;
      said.style.width = `${(right - left) * width}px`;
    }
    const [from, to] = parts[this.cursor.at - 1] ?? [0, 0];
    this.lit.style.left = `${from * width - 3}px`;
    this.lit.style.width = `${(to - from) * width + 6}px`;
    this.middle = ((from + to) / 2) * width;
    const left = this.scroller.scrollLeft;
    const margin = Math.min(160, room / 3);
    if (this.middle < left + margin || this.middle > left + room - margin) {
      this.scroller.scrollLeft = this.middle - room / 2;
    }
    this.tellWhere();
  }

  /** The columns of the letters; one more where letters are typed beyond the line's end. */
  #columns() {
    const parts = columns(this.line, this.cursor.at);
    if (this.cursor.at > parts.length && parts.length > 0) {
      const end = parts.at(-1)[1];
      parts.push([end, Math.min(1, end + (end - parts[0][0]) / parts.length)]);
    }
    return parts;
  }

  /** Says where across the page the lit column is. */
  tellWhere() {
    const box = this.wide.getBoundingClientRect();
    this.onShown(box.left + (this.middle ?? 0));
  }

  #clicked(event) {
    const box = this.wide.getBoundingClientRect();
    const share = (event.clientX - box.left) / box.width;
    const at = columns(this.line, this.cursor.at).findIndex(([from, to]) => share >= from && share < to);
    if (at >= 0) {
      this.onPlace({ line: this.cursor.line, at: at + 1 });
    }
    this.focus();
  }
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

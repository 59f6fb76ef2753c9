// The whole stone: photographs and relief images, the line being read lit, zoom and pan, two pictures beside each other
// under the pointer, and a plan of where each light stood.

import { LineDrawing, middleOf } from "./line-drawing.js";
import { byId, drawing, make, points } from "./page-parts.js";
import { lightWords } from "./letter-column.js";
import { lineOf, unsureOf, unsureWords } from "./face-model.js";

const LARGEST_ZOOM = 12;
const DRAG_PX = 4;

const RELIEF_NAMES = {
  grey: "Squared up",
  contrast: "The light evened out",
  cut: "The cut brought out",
  depth: "The cut, from several lights",
};

export class StoneView {
  /** `onPlace` is called with the line, or the place where one may be, that is pointed at. */
  constructor(onPlace) {
    this.onPlace = onPlace;
    this.frame = byId("stone");
    this.image = drawing("image");
    this.other = drawing("image", { class: "other" });
    this.clip = drawing("rect");
    this.shade = drawing("path", { class: "shade", "fill-rule": "evenodd" });
    this.boxes = drawing("g", { class: "boxes" });
    this.drawing = new LineDrawing(this);
    this.svg = drawing(
      "svg",
      { role: "img", "aria-label": "The stone" },
      drawing("clipPath", { id: "right-of-pointer" }, this.clip),
      this.image,
      drawing("g", { "clip-path": "url(#right-of-pointer)" }, this.other),
      this.shade,
      this.boxes,
      this.drawing.group,
    );
    this.frame.replaceChildren(this.svg);
    this.zoom = 1;
    this.centre = [0.5, 0.5];
    this.overlay = true;
    this.chosen = 0;
    this.beside = -1;
    this.split = 0.5;
    this.pointers = new Map();
    this.#buttons();
    this.#pointer();
    this.frame.addEventListener("keydown", (event) => this.#key(event));
    new ResizeObserver(() => this.#look()).observe(this.frame);
  }

  show(face, cursor) {
    const moved = this.cursor && (this.cursor.line !== cursor.line || this.cursor.place !== cursor.place);
    this.face = face;
    this.cursor = cursor;
    const pictures = this.#pictures();
    const sources = pictures.map((picture) => picture.url).join(" ");
    if (this.#sources !== sources) {
      this.#sources = sources;
      this.chosen = Math.max(0, pictures.findIndex((picture) => picture.leading));
      this.beside = -1;
      const options = (shown) => shown.map((picture) => make("option", { value: String(pictures.indexOf(picture)) }, picture.name));
      const photographs = pictures.filter((picture) => picture.kind === "photograph");
      byId("picture").replaceChildren(...options(pictures));
      byId("beside").replaceChildren(make("option", { value: "-1" }, "nothing beside it"), ...options(photographs));
      byId("beside").hidden = photographs.length < 2;
      this.#lightPlan();
    }
    if (moved && this.zoom > 1) {
      this.#follow();
    }
    this.redraw();
  }

  #sources = "";

  /** Lets a person show where a line runs, on the photograph the machine read; resolves to null if he doesn't. */
  async drawLine(title, line) {
    const pictures = this.#pictures();
    this.#choose(Math.max(0, pictures.findIndex((picture) => picture.leading)));
    const others = this.face.lines.filter((one) => one.onPhotograph).map((one) => one.heightPx);
    const usual = others.sort((a, b) => a - b)[Math.floor(others.length / 2)] ?? this.height / 25;
    const start = line?.onPhotograph
      ? { middle: middleOf(line.onPhotograph), heightPx: line.heightPx }
      : { middle: [], heightPx: usual };
    const answer = this.drawing.show(title, start);
    byId("stone-side").scrollIntoView({ block: "nearest" });
    return answer;
  }

  /** The next picture of the stone, or the one before. */
  turnPicture(by) {
    const count = this.#pictures().length;
    this.#choose((this.chosen + by + count) % count);
  }

  /** The picture beside it becomes the one shown, and back. */
  flip() {
    if (this.beside >= 0) {
      [this.chosen, this.beside] = [this.beside, this.chosen];
      this.redraw();
    }
  }

  /** The next light of the raking set, clockwise, or the one before. */
  turnLight(by) {
    const lights = this.#lights();
    if (lights.length < 2) {
      return false;
    }
    const now = lights.findIndex((light) => light.index === this.chosen);
    const next = now < 0 ? 0 : (now + by + lights.length) % lights.length;
    this.#choose(lights[next].index);
    return true;
  }

  #pictures() {
    const many = this.face.photographs.length > 1;
    const photographs = this.face.photographs.map((photograph, i) => ({
      ...photograph,
      name:
        (many ? `As photographed ${i + 1}` : "As photographed") +
        (lightWords(photograph) ? `, ${lightWords(photograph)}` : "") +
        (this.face.proposal && !carry(photograph) ? " (lines not marked)" : ""),
      kind: "photograph",
    }));
    const reliefs = (this.face.reliefs ?? []).map((relief) => ({
      ...relief,
      name: RELIEF_NAMES[relief.name] ?? relief.name,
      kind: "relief",
    }));
    return [...photographs, ...reliefs];
  }

  /** The photographs by where their light comes from. */
  #lights() {
    return this.face.photographs
      .map((photograph, index) => ({ index, azimuth: photograph.light?.azimuthDegrees ?? index * 30, photograph }))
      .sort((a, b) => a.azimuth - b.azimuth);
  }

  #choose(index) {
    this.chosen = index;
    this.redraw();
  }

  redraw() {
    const pictures = this.#pictures();
    const picture = pictures[this.chosen];
    byId("picture").value = String(this.chosen);
    byId("beside").value = String(this.beside);
    if (!picture) {
      return;
    }
    this.width = picture.widthPx;
    this.height = picture.heightPx;
    this.#source(this.image, picture);
    const other = pictures[this.beside];
    this.other.style.display = other ? "" : "none";
    if (other) {
      this.#source(this.other, other);
    }
    this.svg.setAttribute("aria-label", `The stone, ${picture.name}`);
    this.#overlay(picture);
    this.#markLight();
    this.#look();
  }

  /** Shown over the whole width of the first picture, also where it has another size. */
  #source(image, picture) {
    const url = picture.kind === "photograph" && this.zoom > 2.5 ? `${picture.url}?longest=3200` : picture.url;
    if (image.getAttribute("href") !== url) {
      image.setAttribute("href", url);
    }
    image.setAttribute("width", this.width);
    image.setAttribute("height", this.height);
  }

  #overlay(picture) {
    const boxOf = carry(picture) ?? (() => undefined);
    const line = unsureOf(this.face, this.cursor) ?? lineOf(this.face, this.cursor);
    const box = line && boxOf(line);
    const overlay = this.overlay && !this.drawing.active;
    this.shade.setAttribute(
      "d",
      overlay && box
        ? `M0 0H${this.width}V${this.height}H0Z M${points(box).replaceAll(" ", " L")}Z`
        : "",
    );
    const shapes = [];
    if (overlay) {
      for (const other of this.face.lines) {
        if (boxOf(other)) {
          shapes.push(
            drawing("polygon", {
              class: other === line ? "line now" : "line",
              points: points(boxOf(other)),
              "data-line": other.line,
            }),
          );
        }
      }
      for (const one of this.face.unsure ?? []) {
        if (boxOf(one)) {
          shapes.push(
            drawing(
              "polygon",
              { class: one === line ? "line unsure now" : "line unsure", points: points(boxOf(one)), "data-place": one.place },
              drawing("title", {}, unsureWords(this.face, one)),
            ),
          );
        }
      }
      line?.letters.forEach((letter, i) => {
        if (boxOf(letter)) {
          const here = i + 1 === this.cursor.at && !this.cursor.place;
          shapes.push(
            drawing("polygon", {
              class: ["letter", !letter.decided && "open", here && "here"].filter(Boolean).join(" "),
              points: points(boxOf(letter)),
            }),
          );
        }
      });
    }
    this.boxes.replaceChildren(...shapes);
  }

  /** The part of the picture that is seen. */
  #look() {
    if (!this.width) {
      return;
    }
    const wide = this.width / this.zoom;
    const high = this.height / this.zoom;
    const [x, y] = this.centre.map((c) => Math.max(0.5 / this.zoom, Math.min(1 - 0.5 / this.zoom, c)));
    this.centre = [x, y];
    const left = x * this.width - wide / 2;
    this.svg.setAttribute("viewBox", `${left} ${y * this.height - high / 2} ${wide} ${high}`);
    this.frame.classList.toggle("near", this.zoom > 1);
    const from = this.split * this.width;
    for (const [name, value] of Object.entries({ x: from, y: 0, width: Math.max(0, this.width - from), height: this.height })) {
      this.clip.setAttribute(name, value);
    }
    this.drawing.draw(Math.max(wide / this.frame.clientWidth, high / this.frame.clientHeight));
  }

  #zoomBy(factor, about = this.centre) {
    const before = this.zoom;
    this.zoom = Math.max(1, Math.min(LARGEST_ZOOM, this.zoom * factor));
    const keep = before / this.zoom;
    this.centre = this.centre.map((c, i) => about[i] + (c - about[i]) * keep);
    this.redraw();
  }

  #boxOfLine() {
    const picture = this.#pictures()[this.chosen];
    const line = unsureOf(this.face, this.cursor) ?? lineOf(this.face, this.cursor);
    return picture && line && carry(picture)?.(line);
  }

  /** Brings the line being read near. */
  toLine() {
    const box = this.#boxOfLine();
    if (!box) {
      return;
    }
    const xs = box.map((point) => point[0]);
    const wide = Math.max(...xs) - Math.min(...xs);
    this.zoom = Math.max(1, Math.min(LARGEST_ZOOM, (0.85 * this.width) / wide));
    this.#follow();
    this.redraw();
  }

  /** The line being read comes to the middle. */
  #follow() {
    const box = this.#boxOfLine();
    if (box) {
      const middle = (i) => (Math.max(...box.map((p) => p[i])) + Math.min(...box.map((p) => p[i]))) / 2;
      this.centre = [middle(0) / this.width, middle(1) / this.height];
    }
  }

  toWhole() {
    this.zoom = 1;
    this.centre = [0.5, 0.5];
    this.redraw();
  }

  #buttons() {
    byId("picture").addEventListener("change", (event) => this.#choose(Number(event.target.value)));
    byId("beside").addEventListener("change", (event) => {
      this.beside = Number(event.target.value);
      this.redraw();
    });
    byId("nearer").addEventListener("click", () => this.#zoomBy(1.5));
    byId("farther").addEventListener("click", () => this.#zoomBy(1 / 1.5));
    byId("whole").addEventListener("click", () => this.toWhole());
    byId("near-line").addEventListener("click", () => this.toLine());
    byId("boxes").addEventListener("click", (event) => {
      this.overlay = !this.overlay;
      event.currentTarget.setAttribute("aria-pressed", String(this.overlay));
      this.redraw();
    });
    const lamp = () => {
      const page = byId("reading").style;
      page.setProperty("--bright", String(byId("bright").value / 100));
      page.setProperty("--contrast", String(byId("contrast").value / 100));
    };
    for (const id of ["bright", "contrast"]) {
      byId(id).addEventListener("input", lamp);
    }
    byId("plain-light").addEventListener("click", () => {
      byId("bright").value = byId("contrast").value = "100";
      lamp();
    });
  }

  /** A place in pixels of the picture. */
  place(event) {
    const inverse = this.svg.getScreenCTM().inverse();
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(inverse);
    return [point.x, point.y];
  }

  #share(event) {
    const [x, y] = this.place(event);
    return [x / this.width, y / this.height];
  }

  #pointer() {
    let from;
    let apart;
    const spread = () => {
      const [a, b] = [...this.pointers.values()];
      return Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY);
    };
    this.frame.addEventListener("pointerdown", (event) => {
      this.pointers.set(event.pointerId, event);
      from = {
        at: this.#share(event), x: event.clientX, y: event.clientY, moved: false,
        handle: this.drawing.active ? this.drawing.handle(event) : undefined,
      };
      apart = this.pointers.size === 2 ? spread() : undefined;
    });
    this.frame.addEventListener("pointermove", (event) => {
      if (this.beside >= 0 && event.buttons === 0) {
        this.split = Math.max(0, Math.min(1, this.#share(event)[0]));
        this.#look();
      }
      if (!this.pointers.has(event.pointerId)) {
        return;
      }
      this.pointers.set(event.pointerId, event);
      if (apart && this.pointers.size === 2) {
        const now = spread();
        this.#zoomBy(now / apart, this.#share(event));
        apart = now;
        from = undefined;
        return;
      }
      if (!from) {
        return;
      }
      if (!from.moved && Math.hypot(event.clientX - from.x, event.clientY - from.y) > DRAG_PX) {
        from.moved = true;
        this.frame.setPointerCapture(event.pointerId);
      }
      if (from.moved && from.handle !== undefined) {
        this.drawing.drag(from.handle, this.place(event));
      } else if (from.moved && this.zoom > 1) {
        const now = this.#share(event);
        this.centre = this.centre.map((c, i) => c + from.at[i] - now[i]);
        this.#look();
      }
    });
    const up = (event) => {
      this.pointers.delete(event.pointerId);
      apart = undefined;
      if (event.type === "pointerup" && from && !from.moved) {
        if (this.drawing.active) {
          if (from.handle === undefined) {
            this.drawing.clicked(this.place(event));
          }
        } else {
          const { line, place } = event.target.closest?.("[data-line], [data-place]")?.dataset ?? {};
          if (line || place) {
            this.onPlace(line ? { line: Number(line), at: 1 } : { place: Number(place) });
          }
        }
      }
      from = undefined;
    };
    this.frame.addEventListener("pointerup", up);
    this.frame.addEventListener("pointercancel", up);
    // The wheel scrolls the page; with Ctrl, which is what a pinch on a touchpad sends, it brings the stone nearer.
    this.frame.addEventListener(
      "wheel",
      (event) => {
        if (event.ctrlKey) {
          event.preventDefault();
          this.#zoomBy(event.deltaY < 0 ? 1.2 : 1 / 1.2, this.#share(event));
        }
      },
      { passive: false },
    );
  }

  #key(event) {
    const pan = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    if (event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    if (pan && event.shiftKey && this.beside >= 0) {
      this.split = Math.max(0, Math.min(1, this.split + pan[0] * 0.05));
      this.#look();
    } else if (pan) {
      this.centre = this.centre.map((c, i) => c + (pan[i] * 0.15) / this.zoom);
      this.#look();
    } else if (event.key === "+" || event.key === "=") {
      this.#zoomBy(1.5);
    } else if (event.key === "-") {
      this.#zoomBy(1 / 1.5);
    } else if (event.key === "0") {
      this.toWhole();
    } else if (event.key === "\\") {
      this.flip();
    } else {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  }

  /** The stone seen from above, north up: which way its face looks, and from where each light came. */
  #lightPlan() {
    const lights = this.#lights().filter(({ photograph }) => photograph.light?.azimuthDegrees !== undefined);
    const plan = byId("lights");
    plan.hidden = lights.length === 0;
    if (plan.hidden) {
      return;
    }
    const at = (degrees, radius) => {
      const angle = ((degrees - 90) * Math.PI) / 180;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    };
    const bearing = this.face.bearingDegrees;
    const stone = drawing(
      "g",
      { transform: `rotate(${bearing ?? 0})` },
      drawing("rect", { x: -11, y: -3, width: 22, height: 6, class: "plan-stone" }),
      bearing !== undefined && drawing("path", { d: "M-4 -5 L0 -10 L4 -5 Z", class: "plan-front" }),
    );
    const suns = lights.map(({ index, azimuth, photograph }) => {
      const [x, y] = at(azimuth, 22);
      return drawing(
        "g",
        { class: "sun", "data-index": index },
        drawing("title", {}, lightWords(photograph)),
        drawing("line", { x1: x * 0.62, y1: y * 0.62, x2: x * 0.85, y2: y * 0.85 }),
        drawing("circle", { cx: x, cy: y, r: 4 }),
      );
    });
    plan.replaceChildren(
      drawing(
        "svg",
        { viewBox: "-36 -36 72 72", role: "img", "aria-label": "Plan: the stone from above and where each light stood" },
        drawing("text", { x: 0, y: -28, class: "plan-north", "text-anchor": "middle" }, "N"),
        stone,
        ...suns,
      ),
      make("span", { id: "light-now" }),
    );
    plan.onclick = (event) => {
      const sun = event.target.closest("[data-index]");
      if (sun) {
        this.#choose(Number(sun.dataset.index));
      }
    };
  }

  #markLight() {
    const plan = byId("lights");
    for (const sun of plan.querySelectorAll(".sun")) {
      sun.classList.toggle("on", Number(sun.dataset.index) === this.chosen);
    }
    const now = byId("light-now");
    if (now) {
      now.textContent = lightWords(this.face.photographs[this.chosen]) ?? "";
    }
  }
}

/** Carries the box of a line or letter onto a picture; undefined where it can't be laid there. */
function carry(picture) {
  if (picture.kind === "relief") {
    return (thing) => thing.onRelief;
  }
  if (picture.leading) {
    return (thing) => thing.onPhotograph;
  }
  const m = picture.fromLeading;
  return m && ((thing) => thing.onPhotograph?.map(([x, y]) => {
    const w = m[6] * x + m[7] * y + m[8];
    return [(m[0] * x + m[1] * y + m[2]) / w, (m[3] * x + m[4] * y + m[5]) / w];
  }));
}

// The whole stone: photographs and relief images, the line being read lit, zoom and pan, and a dial
// that turns the light of a raking set.

import { byId, drawing, make, points } from "./page-parts.js";
import { lineOf } from "./face-model.js";

const LARGEST_ZOOM = 12;

export class StoneView {
  constructor(onLine) {
    this.onLine = onLine;
    this.frame = byId("stone");
    this.image = drawing("image");
    this.shade = drawing("path", { class: "shade", "fill-rule": "evenodd" });
    this.boxes = drawing("g", { class: "boxes" });
    this.svg = drawing("svg", { role: "img", "aria-label": "The stone" }, this.image, this.shade, this.boxes);
    this.frame.replaceChildren(this.svg);
    this.zoom = 1;
    this.centre = [0.5, 0.5];
    this.overlay = true;
    this.chosen = 0;
    this.#buttons();
    this.#pointer();
    this.frame.addEventListener("keydown", (event) => this.#key(event));
    new ResizeObserver(() => this.#look()).observe(this.frame);
  }

  show(face, cursor) {
    this.face = face;
    this.cursor = cursor;
    const pictures = this.#pictures();
    if (this.#sources !== pictures.map((picture) => picture.url).join(" ")) {
      this.#sources = pictures.map((picture) => picture.url).join(" ");
      this.chosen = Math.max(0, pictures.findIndex((picture) => picture.leading));
      byId("picture").replaceChildren(
        ...pictures.map((picture, i) => make("option", { value: String(i) }, picture.name)),
      );
      this.#dial();
    }
    this.#draw();
  }

  #sources = "";

  /** The next picture of the stone, or the one before. */
  turnPicture(by) {
    const count = this.#pictures().length;
    this.#choose((this.chosen + by + count) % count);
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

  get pictureName() {
    return this.#pictures()[this.chosen]?.name ?? "";
  }

  #pictures() {
    const photographs = this.face.photographs.map((photograph, i) => ({
      ...photograph,
      name:
        (this.face.photographs.length > 1 ? lightName(photograph, i) : "photograph") +
        (this.face.proposal && !carry(photograph) ? ", lines not marked" : ""),
      kind: "photograph",
    }));
    const reliefs = (this.face.reliefs ?? []).map((relief) => ({ ...relief, kind: "relief" }));
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
    this.#draw();
  }

  #draw() {
    const picture = this.#pictures()[this.chosen];
    byId("picture").value = String(this.chosen);
    if (!picture) {
      return;
    }
    this.width = picture.widthPx;
    this.height = picture.heightPx;
    const url = picture.kind === "photograph" && this.zoom > 2.5 ? `${picture.url}?longest=3200` : picture.url;
    if (this.image.getAttribute("href") !== url) {
      this.image.setAttribute("href", url);
    }
    this.image.setAttribute("width", this.width);
    this.image.setAttribute("height", this.height);
    this.svg.setAttribute("aria-label", `The stone, ${picture.name}`);
    this.#overlay(picture);
    this.#dialTo();
    this.#look();
  }

  #overlay(picture) {
    const boxOf = carry(picture) ?? (() => undefined);
    const line = lineOf(this.face, this.cursor);
    const box = line && boxOf(line);
    this.shade.setAttribute(
      "d",
      this.overlay && box
        ? `M0 0H${this.width}V${this.height}H0Z M${points(box).replaceAll(" ", " L")}Z`
        : "",
    );
    const shapes = [];
    if (this.overlay) {
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
      line?.letters.forEach((letter, i) => {
        if (boxOf(letter)) {
          const here = i + 1 === this.cursor.at;
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
    this.svg.setAttribute("viewBox", `${x * this.width - wide / 2} ${y * this.height - high / 2} ${wide} ${high}`);
  }

  #zoomBy(factor, about = this.centre) {
    const before = this.zoom;
    this.zoom = Math.max(1, Math.min(LARGEST_ZOOM, this.zoom * factor));
    const keep = before / this.zoom;
    this.centre = this.centre.map((c, i) => about[i] + (c - about[i]) * keep);
    this.#draw();
  }

  /** Brings the line being read near. */
  toLine() {
    const picture = this.#pictures()[this.chosen];
    const line = lineOf(this.face, this.cursor);
    const box = picture && line && carry(picture)?.(line);
    if (!box) {
      return;
    }
    const xs = box.map((point) => point[0]);
    const ys = box.map((point) => point[1]);
    const wide = Math.max(...xs) - Math.min(...xs);
    this.zoom = Math.max(1, Math.min(LARGEST_ZOOM, (0.85 * this.width) / wide));
    this.centre = [
      (Math.max(...xs) + Math.min(...xs)) / 2 / this.width,
      (Math.max(...ys) + Math.min(...ys)) / 2 / this.height,
    ];
    this.#draw();
  }

  toWhole() {
    this.zoom = 1;
    this.centre = [0.5, 0.5];
    this.#draw();
  }

  #buttons() {
    byId("picture").addEventListener("change", (event) => this.#choose(Number(event.target.value)));
    byId("nearer").addEventListener("click", () => this.#zoomBy(1.5));
    byId("farther").addEventListener("click", () => this.#zoomBy(1 / 1.5));
    byId("whole").addEventListener("click", () => this.toWhole());
    byId("near-line").addEventListener("click", () => this.toLine());
    byId("boxes").addEventListener("click", (event) => {
      this.overlay = !this.overlay;
      event.currentTarget.setAttribute("aria-pressed", String(this.overlay));
      this.#draw();
    });
  }

  #place(event) {
    const inverse = this.svg.getScreenCTM().inverse();
    const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(inverse);
    return [point.x / this.width, point.y / this.height];
  }

  #pointer() {
    let from;
    this.frame.addEventListener("pointerdown", (event) => {
      from = { at: this.#place(event), x: event.clientX, y: event.clientY, moved: false };
    });
    this.frame.addEventListener("pointermove", (event) => {
      if (!from || event.buttons === 0) {
        return;
      }
      if (!from.moved && Math.hypot(event.clientX - from.x, event.clientY - from.y) > 4) {
        from.moved = true;
        this.frame.setPointerCapture(event.pointerId);
      }
      if (from.moved) {
        const now = this.#place(event);
        this.centre = this.centre.map((c, i) => c + from.at[i] - now[i]);
        this.#look();
      }
    });
    this.frame.addEventListener("pointerup", (event) => {
      if (from && !from.moved) {
        const line = event.target.closest?.("[data-line]");
        if (line) {
          this.onLine(Number(line.dataset.line));
        }
      }
      from = undefined;
    });
    this.frame.addEventListener(
      "wheel",
      (event) => {
        event.preventDefault();
        this.#zoomBy(event.deltaY < 0 ? 1.2 : 1 / 1.2, this.#place(event));
      },
      { passive: false },
    );
  }

  #key(event) {
    const pan = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    if (event.shiftKey || event.ctrlKey || event.metaKey || event.altKey) {
      return;
    }
    if (pan) {
      this.centre = this.centre.map((c, i) => c + (pan[i] * 0.15) / this.zoom);
      this.#look();
    } else if (event.key === "+" || event.key === "=") {
      this.#zoomBy(1.5);
    } else if (event.key === "-") {
      this.#zoomBy(1 / 1.5);
    } else if (event.key === "0") {
      this.toWhole();
    } else {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  }

  #dial() {
    const lights = this.#lights();
    const dial = byId("dial");
    dial.hidden = lights.length < 2;
    if (dial.hidden) {
      return;
    }
    const rays = lights.map(({ index, azimuth, photograph }) => {
      const angle = ((azimuth - 90) * Math.PI) / 180;
      const [x, y] = [Math.cos(angle), Math.sin(angle)];
      return drawing(
        "g",
        { class: "ray", "data-index": index },
        drawing("title", {}, lightName(photograph, index)),
        drawing("line", { x1: 9 * x, y1: 9 * y, x2: 15 * x, y2: 15 * y }),
        drawing("circle", { cx: 19 * x, cy: 19 * y, r: 4 }),
      );
    });
    dial.replaceChildren(
      drawing("svg", { viewBox: "-25 -25 50 50", "aria-hidden": "true" }, drawing("rect", { x: -4, y: -6, width: 8, height: 12, rx: 3, class: "dial-stone" }), ...rays),
    );
    dial.setAttribute("aria-valuemin", "1");
    dial.setAttribute("aria-valuemax", String(lights.length));
    dial.onclick = (event) => {
      const ray = event.target.closest("[data-index]");
      if (ray) {
        this.#choose(Number(ray.dataset.index));
      } else {
        this.turnLight(1);
      }
    };
    dial.onkeydown = (event) => {
      const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1 }[event.key];
      if (by) {
        this.turnLight(by);
        event.preventDefault();
        event.stopPropagation();
      }
    };
  }

  #dialTo() {
    const dial = byId("dial");
    const lights = this.#lights();
    const now = lights.findIndex((light) => light.index === this.chosen);
    dial.setAttribute("aria-valuenow", String(now + 1 || 1));
    dial.setAttribute("aria-valuetext", now < 0 ? "a relief image" : lightName(lights[now].photograph, lights[now].index));
    for (const ray of dial.querySelectorAll(".ray")) {
      ray.classList.toggle("on", Number(ray.dataset.index) === this.chosen);
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

function lightName(photograph, index) {
  const light = photograph.light;
  return light?.azimuthDegrees === undefined
    ? `photograph ${index + 1}`
    : `light from ${Math.round(light.azimuthDegrees)}°`;
}

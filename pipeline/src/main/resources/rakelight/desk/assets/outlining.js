// An area outlined on a photograph: a rectangle dragged, or corners set one after the other, by mouse, finger or keyboard.

import { byId, drawing } from "./page-parts.js";

const svg = byId("outline");
const wide = Number(svg.dataset.width);
const high = Number(svg.dataset.height);
const area = drawing("polygon", { class: "outlined" });
const marks = drawing("g", { class: "corners" });
const cross = drawing("path", { class: "cross" });
svg.append(area, marks, cross);

let corners = [];
let at = [wide / 2, high / 2];
let from;

const unit = () => wide / (svg.clientWidth || wide);
const within = ([x, y]) => [Math.min(wide, Math.max(0, x)), Math.min(high, Math.max(0, y))];
const written = () => corners.map((corner) => corner.map((c) => Math.round(c * 10) / 10).join(",")).join(" ");

function place(event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return within([point.x, point.y]);
}

function show() {
  area.setAttribute("points", written());
  marks.replaceChildren(...corners.map(([x, y]) => drawing("circle", { cx: x, cy: y, r: 5 * unit() })));
  const arm = 14 * unit();
  cross.setAttribute("d", `M${at[0] - arm} ${at[1]}h${2 * arm}M${at[0]} ${at[1] - arm}v${2 * arm}`);
  for (const shape of [area, cross]) {
    shape.style.strokeWidth = 2.5 * unit();
  }
  byId("corners").value = corners.length < 3 ? "" : written();
  byId("outlined").textContent =
    corners.length === 0
      ? "Nothing is outlined yet."
      : corners.length < 3
        ? `${corners.length} of at least 3 corners.`
        : `Outlined by ${corners.length} corners.`;
}

const rectangle = ([x, y], [u, v]) => [
  [Math.min(x, u), Math.min(y, v)],
  [Math.max(x, u), Math.min(y, v)],
  [Math.max(x, u), Math.max(y, v)],
  [Math.min(x, u), Math.max(y, v)],
];

const isDragged = (to) => Math.hypot(to[0] - from[0], to[1] - from[1]) > 8 * unit();

svg.addEventListener("pointerdown", (event) => {
  from = place(event);
  svg.setPointerCapture(event.pointerId);
  event.preventDefault();
  svg.focus({ preventScroll: true });
});

svg.addEventListener("pointermove", (event) => {
  if (from && isDragged(place(event))) {
    corners = rectangle(from, place(event));
    show();
  }
});

svg.addEventListener("pointerup", (event) => {
  if (!from) {
    return;
  }
  at = place(event);
  if (isDragged(at)) {
    corners = rectangle(from, at);
  } else {
    corners.push(at);
  }
  from = undefined;
  show();
});

svg.addEventListener("keydown", (event) => {
  const by = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
  if (by) {
    const step = (event.shiftKey ? 40 : 8) * unit();
    at = within([at[0] + by[0] * step, at[1] + by[1] * step]);
  } else if (event.key === "Enter" || event.key === " ") {
    corners.push([...at]);
  } else if (event.key === "Backspace") {
    corners.pop();
  } else {
    return;
  }
  event.preventDefault();
  show();
});

byId("last").addEventListener("click", () => {
  corners.pop();
  show();
});

byId("none").addEventListener("click", () => {
  corners = [];
  show();
});

for (const offer of document.querySelectorAll("[data-offer]")) {
  offer.addEventListener("click", () => {
    corners = offer.dataset.offer.split(" ").map((corner) => corner.split(",").map(Number));
    show();
  });
}

new ResizeObserver(show).observe(svg);

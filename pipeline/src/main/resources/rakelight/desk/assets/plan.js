// The plan by mouse, touch and keys. Without this it is a picture beside a table.
// Everything is drawn anew at each move, one path for all markers of a kind and state; what stands at a place is found by reckoning.

import { get, post } from "./desk-api.js";
import { byId, drawing, make } from "./page-parts.js";

const svg = byId("plan");
const SYMBOL_PX = 9;
const SMALLEST_PX = 3.5;
const LETTER_PX = 6;
const REACH_PX = 24;
const SNAP_METRES = 1;
const MOST_NUMBERS = 150;
const FILLS = { settled: "solid", "no-photograph": "dashed" };

/** Letters as strokes in a box from -1 to 1. */
const LETTERS = {
  settled: [[-0.6, 1, -0.6, -1, 0.4, -1, 0.6, -0.5, 0.4, 0, -0.6, 0], [0, 0, 0.6, 1]],
  open: [[-0.6, -1, -0.6, 0.7, -0.2, 1, 0.2, 1, 0.6, 0.7, 0.6, -1]],
  begun: [[-0.6, 0, 0.4, 0, 0.6, 0.5, 0.4, 1, -0.6, 1, -0.6, -1, 0.3, -1, 0.5, -0.5, 0.3, 0]],
  "once-read": [[-0.3, -0.6, 0.1, -1, 0.1, 1]],
  "to-settle": [[-0.6, -1, 0.1, -1, 0.6, -0.4, 0.6, 0.4, 0.1, 1, -0.6, 1, -0.6, -1]],
  "other-light": [[-0.5, -1, -0.5, 1, 0.6, 1]],
  "no-photograph": [[-0.6, 1, -0.6, -1, 0.6, 1, 0.6, -1]],
};

let ground;
let markers = [];
let byNumber = new Map();
let view = { x: 0, y: 0, scale: 1 };
let chosen = -1;
let detail = { shots: [], faces: [], evidence: [] };
let moving;
let asked = false;
const parts = {};

const wide = () => svg.clientWidth;
const high = () => svg.clientHeight;
const later = () => {
  if (!asked) {
    asked = true;
    requestAnimationFrame(() => {
      asked = false;
      draw();
    });
  }
};
const round = (value) => Math.round(value * 100) / 100;

function layers() {
  svg.replaceChildren();
  const path = (name, how) => {
    parts[name] = drawing("path", { class: how });
    svg.append(parts[name]);
  };
  path("plots", "boundary");
  path("rows", "in-row");
  path("kin", "kin");
  path("look", "look");
  path("proposed", "tie proposed");
  path("confirmed", "tie");
  for (const kind of [0, 1, 2]) {
    for (const fill of ["solid", "hollow", "dashed"]) {
      path(`${kind}${fill}`, fill);
    }
  }
  path("on-solid", "letters on-solid");
  path("on-hollow", "letters");
  path("unsure", "unsure");
  path("ring", "ring");
  parts.words = drawing("g", { "aria-hidden": "true" });
  svg.append(parts.words);
}

function shape(kind, x, y, half) {
  if (kind === 0) {
    return `M${round(x - half)} ${round(y - half)}h${round(2 * half)}v${round(2 * half)}h${round(-2 * half)}z`;
  }
  if (kind === 1) {
    const r = round(0.85 * half);
    return `M${round(x + r)} ${round(y)}a${r} ${r} 0 1 0 0 .01z`;
  }
  const h = round(half);
  const v = round(1.25 * half);
  return `M${round(x)} ${round(y - v)}l${h} ${v}l${-h} ${v}l${-h} ${-v}z`;
}

const circle = (x, y, r) => `M${round(x + r)} ${round(y)}a${round(r)} ${round(r)} 0 1 0 0 .01z`;

/** Pixels of a place. */
const px = (east) => (east - view.x) * view.scale + wide() / 2;
const py = (north) => (view.y - north) * view.scale + high() / 2;
const at = (i) => (moving && moving.i === i ? moving : markers[i]);

function line(points, close) {
  return points.length < 2
    ? ""
    : `M${points.map(([e, n]) => `${round(px(e))} ${round(py(n))}`).join("L")}${close ? "z" : ""}`;
}

function draw() {
  const w = wide();
  const h = high();
  svg.setAttribute("viewBox", `0 0 ${w} ${h}`);
  const half = Math.min(SYMBOL_PX, Math.max(SMALLEST_PX, view.scale * 0.35));
  const d = {};
  const add = (name, what) => {
    (d[name] ??= []).push(what);
  };
  const seen = [];
  markers.forEach((marker, i) => {
    const x = px(at(i).east);
    const y = py(at(i).north);
    if (x < -20 || y < -20 || x > w + 20 || y > h + 20) {
      return;
    }
    seen.push(i);
    const fill = FILLS[marker.state] ?? "hollow";
    add(`${marker.kind}${fill}`, shape(marker.kind, x, y, half));
    if (half > LETTER_PX) {
      const size = half * 0.48;
      for (const stroke of LETTERS[marker.state] ?? []) {
        let to = "M";
        let text = "";
        for (let k = 0; k < stroke.length; k += 2) {
          text += `${to}${round(x + stroke[k] * size)} ${round(y + stroke[k + 1] * size)}`;
          to = "L";
        }
        add(fill === "solid" ? "on-solid" : "on-hollow", text);
      }
    }
  });
  for (const row of ground.lines) {
    add("rows", line(row.map((i) => [at(i).east, at(i).north])));
  }
  for (const plot of ground.plots) {
    add("plots", line(plot.ring, true));
  }
  const families = byId("show-families").checked;
  if (families || chosen >= 0) {
    for (const own of ground.members) {
      if (own.length > 1 && (families || own.includes(chosen))) {
        for (const other of own.slice(1)) {
          add("kin", line([own[0], other].map((i) => [at(i).east, at(i).north])));
        }
      }
    }
  }
  if (chosen >= 0) {
    const { east, north } = at(chosen);
    for (const [from, to, confirmed] of ties(chosen)) {
      add(confirmed ? "confirmed" : "proposed", line([from, to].map((i) => [at(i).east, at(i).north])));
    }
    looks(east, north, (what) => add("look", what));
    const error = (moving ? Number(byId("error").value) : markers[chosen].error) * view.scale;
    if (error > half) {
      add("unsure", circle(px(east), py(north), error));
    }
    add("ring", circle(px(east), py(north), half + 5));
  }
  for (const [name, part] of Object.entries(parts)) {
    if (name !== "words") {
      part.setAttribute("d", (d[name] ?? []).join(""));
    }
  }
  words(seen, half, w, h);
}

/** Where photographs were taken from, and which way they look; which way faces look. */
function looks(east, north, add) {
  const away = (bearing, from, far) => {
    const b = (bearing * Math.PI) / 180;
    return [from[0] + Math.sin(b) * far, from[1] + Math.cos(b) * far];
  };
  const metres = 26 / view.scale;
  for (const shot of detail.shots) {
    const from =
      shot.east === undefined
        ? away(shot.bearing + 180, [east, north], metres * 2)
        : [shot.east, shot.north];
    add(circle(px(from[0]), py(from[1]), 3));
    add(line([from, shot.bearing === undefined ? [east, north] : away(shot.bearing, from, metres)]));
  }
  for (const face of detail.faces) {
    const tip = away(face.bearing, [east, north], metres * 0.8);
    add(line([[east, north], tip]));
    add(line([away(face.bearing + 150, tip, metres * 0.3), tip, away(face.bearing - 150, tip, metres * 0.3)]));
  }
}

function words(seen, half, w, h) {
  const text = (x, y, what, size) =>
    drawing("text", { x: round(x), y: round(y), "font-size": size }, what);
  const shown = [];
  const numbers = seen.length <= MOST_NUMBERS ? seen : seen.filter((i) => i === chosen);
  for (const i of numbers) {
    shown.push(text(px(at(i).east) + half + 3, py(at(i).north) - half * 0.6, markers[i].number, 12));
  }
  for (const [r, row] of ground.lines.entries()) {
    if (row.length > 1) {
      const first = at(row[0]);
      const x = px(first.east) - half - 6 - 8 * Math.min(6, ground.rows[r].length);
      shown.push(text(x, py(first.north) + 4, ground.rows[r], 12));
    }
  }
  // A bar of round metres, and north.
  const most = w / 4 / view.scale;
  const step = 10 ** Math.floor(Math.log10(most));
  const bar = [5, 2, 1].map((k) => k * step).find((metres) => metres <= most);
  shown.push(
    drawing("path", { d: `M12 ${h - 20}v6h${round(bar * view.scale)}v-6`, fill: "none" }),
    text(14, h - 22, `${round(bar)} m`, 12),
    drawing("path", { class: "solid", d: `M${w - 20} 12l6 20l-6-5l-6 5z` }),
    text(w - 24, 46, "N", 12),
  );
  parts.words.replaceChildren(...shown);
}

const ties = (i) => ground.ties.filter(([from, to]) => from === i || to === i);

function fit() {
  const east = markers.map((m) => m.east);
  const north = markers.map((m) => m.north);
  const [w, e] = [Math.min(...east), Math.max(...east)];
  const [s, n] = [Math.min(...north), Math.max(...north)];
  view = {
    x: (w + e) / 2,
    y: (s + n) / 2,
    scale: Math.min(60, (wide() - 60) / Math.max(1, e - w), (high() - 60) / Math.max(1, n - s)),
  };
}

function zoom(factor, x = wide() / 2, y = high() / 2) {
  const scale = Math.min(400, Math.max(0.05, view.scale * factor));
  const kept = 1 / view.scale - 1 / scale;
  view.x += (x - wide() / 2) * kept;
  view.y -= (y - high() / 2) * kept;
  view.scale = scale;
  later();
}

function pan(dx, dy) {
  view.x -= dx / view.scale;
  view.y += dy / view.scale;
  later();
}

/** So that the chosen marker is in sight. */
function show() {
  const { east, north } = at(chosen);
  const margin = 40;
  if (px(east) < margin || px(east) > wide() - margin || py(north) < margin || py(north) > high() - margin) {
    view.x = east;
    view.y = north;
  }
}

function describe(marker) {
  const where = marker.row < 0 ? "" : `, row ${ground.rows[marker.row]}, place ${marker.place}`;
  return `Marker ${marker.number}, ${ground.words.kinds[marker.kind]}, ${ground.words.states[marker.state]}${where}, give or take ${Math.max(0.1, marker.error).toFixed(1)} m`;
}

async function choose(i) {
  if (moving) {
    return;
  }
  chosen = i;
  detail = { shots: [], faces: [], evidence: [] };
  byId("chosen").hidden = i < 0;
  later();
  if (i < 0) {
    return;
  }
  const marker = markers[i];
  const family = ground.families[marker.family];
  byId("chosen-name").replaceChildren(make("a", { href: `/markers/${marker.id}` }, `Marker ${marker.number}`));
  byId("said").textContent = `${describe(marker)}${family ? `, family ${family.name}` : ""}.`;
  const facts = ties(i).map(([from, to, confirmed, probability, called]) => {
    const other = markers[from === i ? to : from].number;
    const how = confirmed ? "confirmed" : `proposed, ${probability.toFixed(2)}`;
    return make("li", {}, from === i ? `${called}, named on ${other} (${how})` : `${other}: ${called} (${how})`);
  });
  if (family) {
    facts.push(make("li", {}, make("a", { href: `/markers/${family.of}/family` }, `The family: ${family.name}`)));
  }
  byId("facts").replaceChildren(...facts);
  if (ground.mayDecide) {
    byId("facts").append(make("li", {}, make("button", { type: "button", id: "move", onclick: () => move(i) }, "Move it")));
  }
  try {
    const known = await get(`/api/markers/${marker.id}/place`);
    if (chosen === i) {
      detail = { shots: known.shots, faces: known.faces ?? [], evidence: known.evidence };
      byId("facts").prepend(...known.evidence.map((words) => make("li", {}, words)));
      if (known.shots.length) {
        byId("facts").append(make("li", {}, known.shots.length === 1 ? "1 photograph tells where it was taken" : `${known.shots.length} photographs tell where they were taken`));
      }
      later();
    }
  } catch (error) {
    byId("said").textContent = error.message;
  }
}

function nearest(x, y) {
  let best = -1;
  let least = REACH_PX;
  markers.forEach((_, i) => {
    const far = Math.hypot(px(at(i).east) - x, py(at(i).north) - y);
    if (far < least) {
      least = far;
      best = i;
    }
  });
  return best;
}

/** The nearest marker that way: what lies aside counts double. */
function beside(dx, dy) {
  const from = chosen < 0 ? { east: view.x, north: view.y } : at(chosen);
  let best = -1;
  let least = Infinity;
  markers.forEach((marker, i) => {
    const along = (marker.east - from.east) * dx + (marker.north - from.north) * dy;
    const aside = Math.abs((marker.east - from.east) * dy - (marker.north - from.north) * dx);
    const far = along + 2 * aside;
    if (i !== chosen && along > 0.01 && aside <= along * 2 && far < least) {
      least = far;
      best = i;
    }
  });
  if (best >= 0) {
    choose(best);
    show();
  }
}

// Where somebody draws a marker

function move(i) {
  const marker = markers[i];
  moving = { i, east: marker.east, north: marker.north, row: "" };
  byId("moving").hidden = false;
  byId("said").textContent = `Marker ${marker.number} is taken up.`;
  svg.focus();
  later();
}

function leave() {
  if (moving) {
    const unknown = markers[moving.i].unplaced;
    if (unknown) {
      markers.pop();
      chosen = -1;
      byId("chosen").hidden = true;
    }
    moving = undefined;
    byId("moving").hidden = true;
    byId("said").textContent = "Left where it was.";
    later();
  }
}

/** The line of a row by its other markers, as least squares lay it. */
function axis(row, without) {
  const others = row.filter((i) => i !== without).map((i) => markers[i]);
  if (others.length < 2) {
    return undefined;
  }
  const mean = (what) => others.reduce((sum, m) => sum + m[what], 0) / others.length;
  const [e, n] = [mean("east"), mean("north")];
  let [ee, en, nn] = [0, 0, 0];
  for (const m of others) {
    ee += (m.east - e) ** 2;
    en += (m.east - e) * (m.north - n);
    nn += (m.north - n) ** 2;
  }
  const turn = 0.5 * Math.atan2(2 * en, ee - nn);
  return { e, n, de: Math.cos(turn), dn: Math.sin(turn) };
}

/** The foot on the nearest row's line: its own row where it has one. */
function foot(metres) {
  let best;
  ground.lines.forEach((row, r) => {
    const line = axis(row, moving.i);
    const own = markers[moving.i].row;
    if (!line || (own >= 0 && own !== r)) {
      return;
    }
    const along = (moving.east - line.e) * line.de + (moving.north - line.n) * line.dn;
    const east = line.e + along * line.de;
    const north = line.n + along * line.dn;
    const far = Math.hypot(east - moving.east, north - moving.north);
    if (far < (best?.far ?? metres)) {
      best = { east, north, far, row: ground.rows[r] };
    }
  });
  return best;
}

function place(east, north, snapping) {
  Object.assign(moving, { east, north, row: "" });
  const line = snapping ? foot(SNAP_METRES) : undefined;
  if (line) {
    Object.assign(moving, { east: line.east, north: line.north, row: line.row });
  }
  const from = markers[moving.i];
  const far = from.unplaced ? "" : ` ${Math.hypot(moving.east - from.east, moving.north - from.north).toFixed(1)} m from where it was`;
  byId("said").textContent = `Marker ${from.number}${far}${moving.row ? `, in line with row ${moving.row}` : ""}.`;
  later();
}

function snap() {
  const line = foot(Infinity);
  if (line) {
    place(line.east, line.north, false);
    moving.row = line.row;
    byId("said").textContent = `In line with row ${line.row}.`;
  } else {
    byId("said").textContent = "No row with two other markers is known.";
  }
}

async function keep() {
  const marker = markers[moving.i];
  try {
    const kept = await post(`/api/markers/${marker.id}/place`, {
      east: round(moving.east),
      north: round(moving.north),
      errorMetres: Number(byId("error").value),
      row: moving.row,
    });
    location.assign(
      `/plan?chosen=${encodeURIComponent(marker.number)}&did=${kept.decision}#at=${round(view.x)},${round(view.y)},${view.scale.toFixed(3)}`,
    );
  } catch (error) {
    byId("said").textContent = error.message;
  }
}

function put() {
  const number = byId("unplaced").value;
  const unknown = ground.unplaced.find((one) => one.number === number);
  if (unknown && !moving) {
    markers.push({
      id: unknown.id, number, east: view.x, north: view.y, kind: 2, state: "open", family: -1, row: -1, place: 0, error: 1, unplaced: true,
    });
    chosen = markers.length - 1;
    detail = { shots: [], faces: [], evidence: [] };
    byId("chosen").hidden = false;
    byId("chosen-name").textContent = `Marker ${number}`;
    byId("facts").replaceChildren();
    move(chosen);
  }
}

// Keys, mouse, touch

const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };

function key(event) {
  if (event.ctrlKey || event.altKey || event.metaKey) {
    return;
  }
  const arrow = ARROWS[event.key];
  if (arrow && moving) {
    const step = event.shiftKey ? 1 : 0.1;
    place(moving.east + arrow[0] * step, moving.north + arrow[1] * step, false);
  } else if (arrow && event.shiftKey) {
    pan((-arrow[0] * wide()) / 5, (arrow[1] * high()) / 5);
  } else if (arrow) {
    beside(...arrow);
  } else if (event.key === "+" || event.key === "=") {
    zoom(1.5);
  } else if (event.key === "-") {
    zoom(1 / 1.5);
  } else if (event.key === "0") {
    fit();
    later();
  } else if (event.key === "Enter" && moving) {
    keep();
  } else if (event.key === "Enter" && chosen >= 0) {
    location.assign(`/markers/${markers[chosen].id}`);
  } else if (event.key === "Escape") {
    if (moving) {
      leave();
    } else {
      choose(-1);
    }
  } else if (event.key === "m" && chosen >= 0 && ground.mayDecide && !moving) {
    move(chosen);
  } else if (event.key === "s" && moving) {
    snap();
  } else {
    return;
  }
  event.preventDefault();
}

const fingers = new Map();
let travelled = 0;
let dragged = false;

const here = (event) => {
  const box = svg.getBoundingClientRect();
  return [event.clientX - box.left, event.clientY - box.top];
};

function down(event) {
  svg.setPointerCapture(event.pointerId);
  fingers.set(event.pointerId, here(event));
  travelled = 0;
  dragged = Boolean(moving) && nearest(...here(event)) === moving.i;
}

function drag(event) {
  const before = fingers.get(event.pointerId);
  if (!before) {
    return;
  }
  const now = here(event);
  if (fingers.size === 2) {
    const other = [...fingers].find(([id]) => id !== event.pointerId)[1];
    const apart = (a) => Math.hypot(a[0] - other[0], a[1] - other[1]);
    zoom(apart(now) / Math.max(1, apart(before)), (now[0] + other[0]) / 2, (now[1] + other[1]) / 2);
  } else if (dragged) {
    const east = view.x + (now[0] - wide() / 2) / view.scale;
    const north = view.y - (now[1] - high() / 2) / view.scale;
    place(east, north, !event.altKey);
  } else {
    pan(now[0] - before[0], now[1] - before[1]);
  }
  travelled += Math.hypot(now[0] - before[0], now[1] - before[1]);
  fingers.set(event.pointerId, now);
}

function up(event) {
  if (fingers.delete(event.pointerId) && event.type === "pointerup" && travelled < 6 && !dragged) {
    choose(nearest(...here(event)));
  }
}

function listen() {
  svg.addEventListener("keydown", key);
  svg.addEventListener("pointerdown", down);
  svg.addEventListener("pointermove", drag);
  svg.addEventListener("pointerup", up);
  svg.addEventListener("pointercancel", up);
  svg.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      zoom(Math.exp(-event.deltaY / 400), ...here(event));
    },
    { passive: false },
  );
  addEventListener("resize", later);
  byId("closer").addEventListener("click", () => zoom(1.5));
  byId("farther").addEventListener("click", () => zoom(1 / 1.5));
  byId("whole").addEventListener("click", () => {
    fit();
    later();
  });
  byId("show-families").addEventListener("change", later);
  byId("go-to").addEventListener("change", () => goTo(byId("go-to").value.trim()));
  byId("snap").addEventListener("click", snap);
  byId("keep").addEventListener("click", keep);
  byId("leave").addEventListener("click", leave);
  byId("error").addEventListener("input", later);
  byId("put")?.addEventListener("click", put);
  for (const row of document.querySelectorAll(".of-plan tbody tr")) {
    row.addEventListener("mouseenter", () => {
      const i = byNumber.get(row.querySelector("[data-number]").dataset.number);
      if (i !== undefined && !moving && chosen < 0) {
        parts.ring.setAttribute("d", circle(px(markers[i].east), py(markers[i].north), SYMBOL_PX + 5));
      }
    });
    row.addEventListener("mouseleave", later);
  }
}

function goTo(number) {
  const i = byNumber.get(number);
  if (i === undefined) {
    byId("chosen").hidden = false;
    byId("said").textContent = `Nobody knows where a marker ${number} stands.`;
    return;
  }
  view.x = markers[i].east;
  view.y = markers[i].north;
  view.scale = Math.max(view.scale, 20);
  choose(i);
}

async function start() {
  ground = await get("/api/plan");
  markers = ground.markers.map(([id, number, east, north, kind, state, row, place, error]) => ({
    id, number, east, north, kind, state, family: -1, row, place, error,
  }));
  byNumber = new Map(markers.map((marker, i) => [marker.number, i]));
  ground.lines = ground.rows.map((_, r) =>
    markers
      .map((_, i) => i)
      .filter((i) => markers[i].row === r)
      .sort((a, b) => markers[a].place - markers[b].place),
  );
  Object.assign(ground, { families: [], members: [], ties: [] });
  svg.setAttribute("role", "application");
  svg.setAttribute("tabindex", "0");
  svg.setAttribute("aria-describedby", "keys");
  byId("tools").hidden = false;
  if (byId("unplaced-tools")) {
    byId("unplaced-tools").hidden = false;
  }
  layers();
  fit();
  listen();
  const kept = /^#at=([-\d.]+),([-\d.]+),([\d.]+)$/.exec(location.hash);
  if (svg.dataset.chosen) {
    goTo(svg.dataset.chosen);
  }
  if (kept) {
    view = { x: Number(kept[1]), y: Number(kept[2]), scale: Number(kept[3]) };
  }
  draw();
  performance.mark("plan-usable");
  if (ground.mayDecide) {
    await families();
  }
}

/** Which markers are one family's and whose footstones are whose: they take longer than the rest. */
async function families() {
  const known = await get("/api/plan/families");
  const byId = new Map(markers.map((marker, i) => [marker.id, i]));
  const here = (ids) => ids.map((id) => byId.get(id)).filter((i) => i !== undefined);
  ground.families = known.families.map(({ name, members }) => ({ name, of: members[0] }));
  ground.members = known.families.map(({ members }) => here(members));
  ground.ties = known.ties
    .map(([from, to, ...rest]) => [byId.get(from), byId.get(to), ...rest])
    .filter(([from, to]) => from !== undefined && to !== undefined);
  ground.members.forEach((own, family) => {
    for (const i of own) {
      markers[i].family = family;
    }
  });
  svg.dataset.families = ground.families.length;
  if (chosen >= 0 && !moving) {
    choose(chosen);
  } else {
    later();
  }
}

if (svg) {
  start().catch((error) => {
    byId("chosen").hidden = false;
    byId("said").textContent = error.message;
  });
}

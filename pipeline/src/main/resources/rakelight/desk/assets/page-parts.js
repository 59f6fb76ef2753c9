// Small ways of making elements. Nothing is ever set from text as markup.

const SVG = "http://www.w3.org/2000/svg";

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined || value === false) {
      continue;
    }
    if (name.startsWith("on")) {
      element.addEventListener(name.slice(2), value);
    } else {
      element.setAttribute(name, value === true ? "" : value);
    }
  }
  element.append(...children.filter((child) => child !== undefined && child !== false));
  return element;
}

/** An element: `make("button", {class: "x", onclick: f}, "text", other)`. */
export const make = (tag, attributes = {}, ...children) =>
  fill(document.createElement(tag), attributes, children);

export const drawing = (tag, attributes = {}, ...children) =>
  fill(document.createElementNS(SVG, tag), attributes, children);

export const byId = (id) => document.getElementById(id);

export const points = (polygon) => polygon.map(([x, y]) => `${x},${y}`).join(" ");

// Questions the page puts to a person, beside the line, which stays in sight while they are answered.

import { byId, make } from "./page-parts.js";

let close = () => {};

/**
 * Asks for a few fields. A field is `{name, label, value, hint, kind, choices, offers}`: `kind` is
 * text (the usual), date or choice; `offers` are answers one click away. A new question puts away the one before.
 *
 * @returns the answers by name, or null if the person thought better of it
 */
export function ask(title, fields, confirm) {
  close();
  return new Promise((resolve) => {
    const inputs = {};
    const form = make("form", { class: "question" }, make("h2", { id: "ask-title" }, title));
    for (const field of fields) {
      const id = `ask-${field.name}`;
      const input = field.choices
        ? make(
            "select",
            { id },
            ...field.choices.map(([value, text]) =>
              make("option", { value, selected: value === field.value }, text),
            ),
          )
        : make("input", {
            id,
            type: field.kind ?? "text",
            value: field.value ?? "",
            required: field.required ?? false,
            maxlength: "400",
            autocomplete: "off",
            "aria-describedby": field.hint ? `${id}-hint` : undefined,
          });
      inputs[field.name] = input;
      form.append(
        make(
          "p",
          { class: "asked" },
          make("label", { for: id }, field.label),
          input,
          field.hint ? make("span", { class: "hint", id: `${id}-hint` }, field.hint) : undefined,
        ),
      );
      if (field.offers) {
        form.append(
          make(
            "p",
            { class: "offers" },
            ...field.offers.map((offer) =>
              make("button", { type: "button", onclick: () => (input.value = offer) }, offer),
            ),
          ),
        );
      }
    }
    form.append(
      make(
        "p",
        { class: "row" },
        make("button", { class: "first" }, confirm),
        make("button", { type: "button", onclick: () => close() }, "Not now ", make("kbd", {}, "Esc")),
      ),
    );
    const place = byId("asked");
    const settle = (answer) => {
      close = () => {};
      place.hidden = true;
      place.replaceChildren();
      resolve(answer);
    };
    close = () => settle(null);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      settle(Object.fromEntries(Object.entries(inputs).map(([name, input]) => [name, input.value.trim()])));
    });
    form.addEventListener("keydown", (event) => {
      if (event.key === "Escape") {
        close();
      }
    });
    place.replaceChildren(form);
    place.hidden = false;
    const first = form.querySelector("input, select");
    (first ?? form.querySelector("button")).focus({ preventScroll: true });
    place.scrollIntoView({ block: "nearest" });
  });
}

// Questions the page puts to a person, in a window of its own.

import { make } from "./page-parts.js";

/**
 * Asks for a few fields. A field is `{name, label, value, hint, kind, choices, offers}`: `kind` is
 * text (the usual), date or choice; `offers` are answers one click away.
 *
 * @returns the answers by name, or null if the person thought better of it
 */
export function ask(title, fields, confirm) {
  return new Promise((resolve) => {
    const form = make("form", { method: "dialog" });
    const inputs = {};
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
    const dialog = make(
      "dialog",
      { "aria-labelledby": "ask-title" },
      make("h2", { id: "ask-title" }, title),
      form,
    );
    form.append(
      make(
        "p",
        { class: "row" },
        make("button", { class: "first", value: "yes" }, confirm),
        make("button", { type: "button", onclick: () => dialog.close("no") }, "Not now"),
      ),
    );
    dialog.addEventListener("close", () => {
      dialog.remove();
      resolve(
        dialog.returnValue === "yes"
          ? Object.fromEntries(Object.entries(inputs).map(([name, input]) => [name, input.value.trim()]))
          : null,
      );
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}

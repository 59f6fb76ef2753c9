// Help beside the work: five steps for the first minute, then the keys. It is offered once and comes back by F1.

import { byId } from "./page-parts.js";

const SEEN = "help was seen";

export class Help {
  constructor(after) {
    this.after = after;
    this.text = byId("help-text");
    byId("help").addEventListener("click", () => this.toggle());
    byId("help-close").addEventListener("click", () => this.close());
    for (const step of this.text.querySelectorAll("[data-of]")) {
      const part = () => byId(step.dataset.of);
      step.tabIndex = 0;
      for (const [on, off] of [["pointerenter", "pointerleave"], ["focus", "blur"]]) {
        step.addEventListener(on, () => part().classList.add("pointed-out"));
        step.addEventListener(off, () => part().classList.remove("pointed-out"));
      }
    }
    this.text.addEventListener("keydown", (event) => {
      if (event.key === "Escape") {
        this.close();
      }
    });
  }

  /** For somebody who has never been here. */
  offer() {
    if (localStorage.getItem(SEEN) === null) {
      localStorage.setItem(SEEN, "yes");
      this.text.hidden = false;
    }
  }

  toggle() {
    if (this.text.hidden) {
      this.text.hidden = false;
      this.text.querySelector("[data-of]").focus({ preventScroll: true });
      this.text.scrollIntoView({ block: "nearest" });
    } else {
      this.close();
    }
  }

  close() {
    if (!this.text.hidden) {
      this.text.hidden = true;
      this.after();
    }
  }
}

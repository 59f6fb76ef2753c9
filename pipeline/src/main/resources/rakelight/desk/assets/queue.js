// Brings back what was put aside.

import { post } from "./desk-api.js";

for (const button of document.querySelectorAll("[data-back]")) {
  button.addEventListener("click", async () => {
    try {
      await post(`/api/faces/${button.dataset.back}/come-back`);
      location.reload();
    } catch (error) {
      document.getElementById("notice").textContent = error.message;
    }
  });
}

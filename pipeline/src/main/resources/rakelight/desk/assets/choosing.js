// What was filled in on a page is kept in this tab while a folder is chosen on another, and put back on return.

const kept = `filled in ${location.pathname}`;
const chosen = new URLSearchParams(location.search).get("folder");
const fields = () => [...document.querySelectorAll("form :is(input, select, textarea)[name]:not([type=hidden], [type=file], [type=password])")];
const ticked = (field) => field.type === "checkbox" || field.type === "radio";

const before = JSON.parse(sessionStorage.getItem(kept) ?? "[]");
sessionStorage.removeItem(kept);
const now = fields();
if (chosen !== null && before.length === now.length) {
  now.forEach((field, i) => {
    if (ticked(field)) {
      field.checked = before[i];
    } else if (field.value !== chosen) {
      field.value = before[i];
    }
  });
}

document.querySelectorAll("a[href*='/folders?for=']").forEach((choose) =>
  choose.addEventListener("click", () => {
    const filled = fields().map((field) => (ticked(field) ? field.checked : field.value));
    sessionStorage.setItem(kept, JSON.stringify(filled));
  }),
);

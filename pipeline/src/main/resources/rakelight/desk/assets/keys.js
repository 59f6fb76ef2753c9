// One key for each thing to decide. Without this the buttons do.

document.addEventListener("keydown", (event) => {
  const typing = event.target.closest("input, select, textarea");
  if (typing || event.ctrlKey || event.altKey || event.metaKey) {
    return;
  }
  const button = document.querySelector(`[data-key="${CSS.escape(event.key.toLowerCase())}"]`);
  if (button) {
    event.preventDefault();
    button.click();
  }
});

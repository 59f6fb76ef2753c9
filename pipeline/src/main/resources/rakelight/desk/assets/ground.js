// Finds a marker by its number while it is typed.

const find = document.getElementById("find");
const markers = [...document.querySelectorAll("#markers > li")];

find.addEventListener("input", () => {
  const wanted = find.value.trim().toLowerCase();
  for (const marker of markers) {
    marker.hidden = !marker.dataset.number.toLowerCase().includes(wanted);
  }
});

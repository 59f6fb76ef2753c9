const place = document.getElementById("reading");
const answer = await fetch(`/api/faces/${place.dataset.face}`);
const face = await answer.json();
const list = document.createElement("ol");
for (const line of face.lines ?? []) {
  const item = document.createElement("li");
  item.textContent = line.text;
  list.append(item);
}
place.append(answer.ok ? list : face.message);

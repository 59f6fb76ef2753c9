// Search as one types. Without this the page is a form like any other.

const PAUSE_MS = 350;
const box = document.getElementById("q");
let waiting = 0;
let newest = 0;

function addCopying() {
  for (const cited of document.querySelectorAll("[data-cite]")) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "copy";
    button.textContent = "Copy";
    button.setAttribute("aria-label", `Copy: ${cited.textContent}`);
    button.addEventListener("click", async () => {
      getSelection().selectAllChildren(cited);
      try {
        await navigator.clipboard.writeText(cited.textContent);
        button.textContent = "Copied";
      } catch {
        button.textContent = "Selected";
      }
    });
    cited.parentElement.append(" ", button);
  }
}

async function ask() {
  const mine = ++newest;
  const address = `/search?q=${encodeURIComponent(box.value.trim())}`;
  let answer;
  try {
    answer = await fetch(address, { headers: { Accept: "text/html" } });
  } catch {
    return;
  }
  if (!answer.ok || answer.redirected || mine !== newest) {
    return;
  }
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  if (mine !== newest) {
    return;
  }
  document.getElementById("answer").replaceWith(page.getElementById("answer"));
  document.getElementById("count").textContent = page.getElementById("count").textContent;
  // The region itself stays, so that what changes in it is read out.
  document.getElementById("announced").textContent = page.getElementById("announced").textContent;
  document.title = page.title;
  history.replaceState(null, "", address);
  addCopying();
}

box.addEventListener("input", () => {
  clearTimeout(waiting);
  waiting = setTimeout(ask, PAUSE_MS);
});
document.getElementById("ask").addEventListener("submit", () => {
  clearTimeout(waiting);
  newest++;
});
addCopying();

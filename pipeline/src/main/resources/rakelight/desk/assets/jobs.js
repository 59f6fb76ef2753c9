// The pages of jobs: how far one is, and folders dropped to be taken in. Both work without: a job's page can be
// loaded again, and a folder can be named.

import { byId } from "./page-parts.js";
import { get } from "./desk-api.js";

const ASK_EVERY_MS = 1000;
const SENT_AT_A_TIME = 3;

async function follow(job) {
  for (;;) {
    await new Promise((later) => setTimeout(later, ASK_EVERY_MS));
    let now;
    try {
      now = await get(`/api/jobs/${job}`);
    } catch (away) {
      byId("how-far").textContent = away.message;
      continue;
    }
    if (now.over) {
      location.reload(); // What comes next is offered by the page itself.
      return;
    }
    byId("state").textContent = now.state;
    byId("how-far").textContent = now.howFar;
    byId("said").textContent = now.lines.join("\n");
    const far = byId("far");
    far.hidden = now.all === 0;
    far.max = Math.max(1, now.all);
    far.value = now.done;
  }
}

/** All files of what was dropped, with their paths, folder by folder. */
async function filesOf(entry, path = "") {
  const here = path + entry.name;
  if (entry.isFile) {
    const file = await new Promise((good, bad) => entry.file(good, bad));
    return [{ file, path: here }];
  }
  const reader = entry.createReader();
  const found = [];
  for (;;) {
    const some = await new Promise((good, bad) => reader.readEntries(good, bad));
    if (some.length === 0) {
      break;
    }
    for (const one of some) {
      found.push(...(await filesOf(one, here + "/")));
    }
  }
  return found;
}

async function send(drop, { file, path }) {
  const to = path.split("/").map(encodeURIComponent).join("/");
  const answer = await fetch(`/api/jobs/drop/${drop}/${to}`, {
    method: "PUT",
    headers: {
      "Content-Type": "application/octet-stream",
      "X-Desk-Token": document.querySelector('meta[name="csrf"]').content,
    },
    body: file,
  });
  if (!answer.ok) {
    throw new Error(`${path} could not be taken.`);
  }
}

function dropping(place) {
  const form = byId("ingest");
  const status = byId("dropped");
  const sent = byId("sent");

  async function take(files) {
    if (files.length === 0) {
      status.textContent = "There is no file in it.";
      return;
    }
    form.querySelector("button").disabled = true;
    sent.hidden = false;
    sent.max = files.length;
    let done = 0;
    const waiting = [...files];
    const one = async () => {
      for (let next = waiting.shift(); next; next = waiting.shift()) {
        await send(place.dataset.drop, next);
        sent.value = ++done;
        status.textContent = `${done} of ${files.length} files taken; leave this page open until all are.`;
      }
    };
    try {
      await Promise.all(Array.from({ length: SENT_AT_A_TIME }, one));
    } catch (broken) {
      status.textContent = `${broken.message} Drop the folder again, or name it below.`;
      form.querySelector("button").disabled = false;
      return;
    }
    form.elements.drop.value = place.dataset.drop;
    form.querySelector("button").disabled = false;
    form.submit();
  }

  place.hidden = false;
  place.addEventListener("dragover", (event) => {
    event.preventDefault();
    place.classList.add("over");
  });
  place.addEventListener("dragleave", () => place.classList.remove("over"));
  place.addEventListener("drop", async (event) => {
    event.preventDefault();
    place.classList.remove("over");
    const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry()).filter((entry) => entry);
    const found = await Promise.all(entries.map((entry) => filesOf(entry)));
    await take(found.flat());
  });
  byId("picked").addEventListener("change", (event) =>
    take([...event.target.files].map((file) => ({ file, path: file.webkitRelativePath || file.name }))),
  );
}

const running = byId("running");
if (running) {
  follow(running.dataset.job);
}
const place = byId("drop");
if (place) {
  dropping(place);
}

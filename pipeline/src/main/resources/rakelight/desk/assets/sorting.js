// The sorting desk by mouse and keys. Without this the page is a form like any other.

const form = document.getElementById("sort");
const shots = form ? [...form.querySelectorAll("[data-shot]")] : [];
let last = -1;

function count() {
  const chosen = shots.filter((shot) => shot.checked).length;
  document.getElementById("chosen").textContent = chosen === 0 ? "" : `(${chosen})`;
}

/** Gives every shot from the last one touched to this one the state of this one. */
function run(to) {
  if (last >= 0) {
    const [from, until] = last < to ? [last, to] : [to, last];
    for (let i = from; i <= until; i++) {
      shots[i].checked = shots[to].checked;
    }
  }
}

function press(what) {
  form.querySelector(`button[name="do"][value="${what}"]`).click();
}

const KEYS = {
  u: () => press("unplace"),
  x: () => press("unfit"),
  n: () => press("no-stone"),
  m: () => document.getElementById("number").focus(),
};

/** The shot above or below: the nearest in the next row. */
function beside(at, down) {
  const here = shots[at].getBoundingClientRect();
  let best = -1;
  let bestFar = Infinity;
  shots.forEach((shot, i) => {
    const there = shot.getBoundingClientRect();
    const away = down ? there.top - here.top : here.top - there.top;
    if (away > 20) {
      const far = away * 4 + Math.abs(there.left - here.left);
      if (far < bestFar) {
        best = i;
        bestFar = far;
      }
    }
  });
  return best;
}

shots.forEach((shot, at) => {
  shot.addEventListener("click", (event) => {
    if (event.shiftKey) {
      run(at);
    }
    last = at;
    count();
  });
  shot.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.altKey || event.metaKey) {
      return;
    }
    const next = {
      ArrowRight: at + 1,
      ArrowLeft: at - 1,
      ArrowDown: event.key === "ArrowDown" ? beside(at, true) : at,
      ArrowUp: event.key === "ArrowUp" ? beside(at, false) : at,
    }[event.key];
    if (next !== undefined && shots[next]) {
      event.preventDefault();
      shots[next].focus();
      if (event.shiftKey) {
        shots[next].checked = shots[at].checked;
        last = next;
        count();
      }
    } else if (event.key === " " && event.shiftKey) {
      event.preventDefault();
      shot.checked = !shot.checked;
      run(at);
      last = at;
      count();
    } else if (KEYS[event.key] && shot.checked) {
      event.preventDefault();
      KEYS[event.key]();
    }
  });
});

// A shift-click on a picture would choose text as well.
for (const label of document.querySelectorAll(".pick")) {
  label.addEventListener("mousedown", (event) => {
    if (event.shiftKey) {
      event.preventDefault();
    }
  });
}

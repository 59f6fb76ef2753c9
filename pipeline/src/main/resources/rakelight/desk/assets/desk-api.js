// Talks to the desk. Every change carries the session's token; see docs/desk.md.

const token = () => document.querySelector('meta[name="csrf"]').content;

/** The desk said no; `message` is one line for a person. */
export class Refused extends Error {
  constructor(status, body) {
    super(body.message ?? "The desk refused this.");
    this.status = status;
    this.code = body.error ?? "";
    this.body = body;
  }
}

/** The desk didn't answer. */
export class Away extends Error {
  constructor() {
    super("The desk doesn't answer.");
  }
}

async function ask(path, request) {
  let answer;
  try {
    answer = await fetch(path, request);
  } catch {
    throw new Away();
  }
  let body;
  try {
    body = await answer.json();
  } catch {
    throw answer.ok ? new Away() : new Refused(answer.status, {});
  }
  if (!answer.ok) {
    throw new Refused(answer.status, body);
  }
  return body;
}

export const get = (path) => ask(path, { headers: { Accept: "application/json" } });

export const post = (path, body = {}) =>
  ask(path, {
    method: "POST",
    headers: { "Content-Type": "application/json", "X-Desk-Token": token() },
    body: JSON.stringify(body),
    keepalive: path.endsWith("/let-go"),
  });

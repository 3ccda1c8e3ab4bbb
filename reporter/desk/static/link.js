// The line to the server: answers, edits in their order, news from elsewhere. Nothing is called saved before it is.

const PATIENCE = 35_000;
const WAITS = [500, 1000, 2000, 4000, 8000];
const KEPT = "unsent";

/** A refusal in words: what is wrong and what to do. */
export class Refusal extends Error {
  constructor(status, told) {
    super(told.error ?? String(status));
    this.status = status;
    this.told = told;
  }
}

/** The JSON of a GET; Refusal when the server says no, TypeError when it is out of reach. */
export const ask = (path) => call(path, {});

/** The JSON that comes back for what is sent. */
export const send = (path, body) =>
  call(path, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });

async function call(path, options) {
  const answer = await fetch(path, { ...options, signal: AbortSignal.timeout(PATIENCE), cache: "no-store" });
  const text = await answer.text();
  const told = text ? JSON.parse(text) : {};
  if (!answer.ok) throw new Refusal(answer.status, told);
  return told;
}

export const sameAddress = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/** The edits that the server has not yet taken, oldest first. They outlive the page in the window's own store. */
export class Queue {
  constructor({ onChange, onTaken, onConflict, onRefused }) {
    Object.assign(this, { onChange, onTaken, onConflict, onRefused });
    this.waiting = JSON.parse(sessionStorage.getItem(KEPT) ?? "[]");
    this.recent = []; // taken, and not yet seen in what the server tells
    this.reached = true;
    this.trouble = null; // why the server cannot take an edit now, in its own words
    this.sending = null;
    this.held = false;
    this.failures = 0;
  }

  /** Take up an edit; one that only goes on with another that has not left yet becomes part of it. */
  add(label, edits) {
    for (const edit of edits) {
      const before = this.waiting.find(
        (each) => !each.tried && each.file === edit.file && sameAddress(each.address, edit.address),
      );
      if (before) Object.assign(before, { wanted: edit.wanted, label });
      else this.waiting.push({ ...edit, label });
    }
    this.changed();
    this.run();
  }

  /** What stands at an address once everything that waits has been taken. */
  wanted(file, address, seen) {
    const last = [...this.recent, ...this.waiting]
      .filter((each) => each.file === file && sameAddress(each.address, address))
      .at(-1);
    return last ? last.wanted : seen;
  }

  /** Edits for addresses that begin so, as far as what the server tells does not hold them yet. */
  under(file, start) {
    return [...this.recent, ...this.waiting].filter(
      (each) => each.file === file && sameAddress(each.address.slice(0, start.length), start),
    );
  }

  changed() {
    sessionStorage.setItem(KEPT, JSON.stringify(this.waiting));
    this.onChange();
  }

  async run() {
    if (this.sending || this.held || !this.waiting.length) return;
    this.sending = this.waiting[0];
    // Once it has left it may have been taken, whether or not an answer comes: what is wanted next is an edit upon it.
    Object.assign(this.sending, { tried: true, leftAt: performance.now() });
    try {
      const { label, file, address, seen, wanted } = this.sending;
      const taken = await send("/api/edit", { label, edits: [{ file, address, seen, wanted }] });
      this.reach(true);
      this.recent.push(this.sending);
      this.drop(this.sending);
      this.onTaken(taken, this.recent.at(-1));
    } catch (error) {
      this.failed(error);
    }
    this.sending = null;
    if (this.reached) this.run();
  }

  failed(error) {
    if (error instanceof Refusal && error.status === 409 && error.told.conflicts) {
      this.reach(true);
      this.held = true;
      this.onConflict(this.sending, error.told.conflicts[0]);
    } else if (error instanceof Refusal && error.status < 500 && ![401, 408, 429].includes(error.status)) {
      const refused = this.sending;
      this.reach(true);
      this.drop(refused);
      this.onRefused(refused, error.told);
    } else {
      this.reach(false, error);
      setTimeout(() => this.again(), WAITS[Math.min(this.failures++, WAITS.length - 1)]);
    }
  }

  /** A conflict is decided: `mine` goes over what stands there now, else what stands there stays. */
  settle(edit, conflict, mine) {
    if (mine) edit.seen = conflict.now;
    else
      this.waiting = this.waiting.filter(
        (each) => !(each.file === edit.file && sameAddress(each.address, edit.address)),
      );
    this.held = false;
    this.changed();
    this.run();
  }

  again() {
    this.run();
  }

  reach(reached, error) {
    if (reached) this.failures = 0;
    this.trouble = error instanceof Refusal ? error.told : null;
    if (reached !== this.reached) {
      this.reached = reached;
      this.onChange();
    }
  }

  drop(edit) {
    this.waiting = this.waiting.filter((each) => each !== edit);
    this.changed();
  }

  /** These edits are in what the server has told since. */
  forget(edits) {
    this.recent = this.recent.filter((each) => !edits.includes(each));
  }
}

/** Waits for news and hands on each new version; tells when the server is out of reach. */
export async function follow(version, { onNews, onReach }) {
  let failures = 0;
  for (;;) {
    try {
      const told = await ask(`/api/job?since=${encodeURIComponent(version())}`);
      failures = 0;
      onReach(true);
      if (told.version !== version()) await onNews(told);
    } catch (error) {
      onReach(false, error);
      await pause(WAITS[Math.min(failures++, WAITS.length - 1)]);
    }
  }
}

// A wait that ends early when the network or the window comes back: after sleep nobody should wait for it.
function pause(time) {
  return new Promise((done) => {
    const wake = () => {
      clearTimeout(timer);
      removeEventListener("online", wake);
      document.removeEventListener("visibilitychange", wake);
      done();
    };
    const timer = setTimeout(wake, time);
    addEventListener("online", wake);
    document.addEventListener("visibilitychange", wake);
  });
}

/** Sends one file as it is; `onProgress` gets 0 to 1. */
export function upload(file, onProgress, path = "/api/photos") {
  return new Promise((done, failed) => {
    const request = new XMLHttpRequest();
    request.open("POST", `${path}${path.includes("?") ? "&" : "?"}name=${encodeURIComponent(file.name)}`);
    request.setRequestHeader("Content-Type", "application/octet-stream");
    request.upload.onprogress = (event) => onProgress(event.loaded / Math.max(event.total, 1));
    request.onerror = () => failed(new TypeError("out of reach"));
    request.onload = () => {
      try {
        const told = JSON.parse(request.responseText || "{}");
        request.status < 300 ? done(told) : failed(new Refusal(request.status, told));
      } catch (error) {
        failed(error); // what answered is not this program
      }
    };
    request.send(file);
  });
}

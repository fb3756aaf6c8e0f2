// Outbox sends the forms to the server that the core on this phone cannot take. A form leaves the journal only when the
// server's own mark on the answer says what became of it; a status alone proves nothing. Until then it is sent again,
// under the same id.
const limit = 10000; // ms for an answer, and more for a long form
const charsPerMs = 8;
const patience = 2000; // ms after which signs of signal end an attempt that hangs
const pauses = [1000, 2000, 4000, 8000, 15000, 30000]; // ms

export class Outbox {
  // heard is called with the entry and the answer, or without an entry when nothing got through.
  constructor(journal, heard) {
    this.journal = journal;
    this.heard = heard;
    this.ids = new Set();
    this.stranger = false; // the server did not let this phone in
    this.tries = 0;
    this.timer = 0;
    this.busy = false;
    this.attempt = null;
  }

  get size() { return this.ids.size; }

  add(entry) {
    this.ids.add(entry.id);
    this.wake();
  }

  // leave gives up an entry: somebody else handles it now.
  leave(id) { this.ids.delete(id); }

  // wake sends everything that waits, at once.
  wake() {
    this.tries = 0;
    if (this.busy) this.attempt.give(patience);
    else if (this.ids.size) this.run();
  }

  async run() {
    clearTimeout(this.timer);
    this.busy = true;
    for (let entry = this.next(); entry; entry = this.next()) {
      this.attempt = new Attempt();
      const answer = await post(entry, this.attempt);
      this.stranger = answer !== null && answer.status === 401;
      if (!answer || !answer.fate) {
        this.timer = setTimeout(() => this.run(), this.pause());
        queueMicrotask(() => this.heard(null, answer));
        break;
      }
      this.tries = 0;
      this.ids.delete(entry.id);
      this.journal.drop(entry.id);
      queueMicrotask(() => this.heard(entry, answer));
    }
    this.busy = false;
  }

  // next returns the oldest entry to send. An entry that left the journal was handled elsewhere.
  next() {
    const left = this.journal.left();
    for (const id of [...this.ids]) if (!left.some((entry) => entry.id === id)) this.ids.delete(id);
    return left.find((entry) => this.ids.has(entry.id));
  }

  pause() {
    const pause = pauses[Math.min(this.tries++, pauses.length - 1)];
    return pause / 2 + Math.random() * pause / 2;
  }
}

// Attempt ends a request that takes too long.
class Attempt {
  constructor() {
    this.began = performance.now();
    this.stop = new AbortController();
    this.timer = 0;
  }

  // give ends the request after so many milliseconds.
  give(ms) {
    this.end();
    this.timer = setTimeout(() => this.stop.abort(), Math.max(0, this.began + ms - performance.now()));
  }

  end() { clearTimeout(this.timer); }
}

// post sends one form. It gives null if nothing came back in time; else the status and, where the server said so, the
// fate of the form with the page that follows.
async function post(entry, attempt) {
  const body = new URLSearchParams(entry.fields);
  attempt.give(limit + body.toString().length / charsPerMs);
  try {
    const answer = await fetch(entry.path, {
      method: 'POST', body, headers: { 'Idempotency-Key': entry.id }, credentials: 'same-origin',
      cache: 'no-store', redirect: 'manual', signal: attempt.stop.signal,
    });
    const fate = answer.headers.get('Garlandry-Form');
    if (fate !== 'kept' && fate !== 'refused') return { status: answer.status, fate: '' };
    const html = await answer.text().catch(() => ''); // cut off, and yet the server has the form
    return { status: answer.status, fate, html, place: answer.headers.get('Content-Location') || '' };
  } catch {
    return null;
  } finally {
    attempt.end();
  }
}

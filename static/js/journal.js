// Journal is the page's own store of submitted forms, beside the core's. A form is written here before anything else
// happens to it. It leaves when the server has it. Once the core has stored it, the journal also holds the core's copy:
// a browser that clears the core's storage loses nothing. Each form has its own key, so tabs do not overwrite each
// other's. Its id makes a repeat harmless.
import { warnWhile } from './held.js';

const prefix = 'garlandry-journal ';
const pages = 'garlandry-page ';
const mostCopied = 1500000; // characters, of the 5 million that browsers grant

export class Journal {
  constructor() {
    this.memory = new Map(); // what storage did not take
    this.full = false; // some copy found no room
    this.last = 0;
    this.holds = () => this.memory.size > 0;
  }

  // keep stores an entry. If there is no room, it drops the remembered pages. It returns false if the entry is only in
  // memory.
  keep(entry) {
    if (!entry.at) entry.at = this.last = Math.max(Date.now(), this.last + 1);
    const text = JSON.stringify(entry);
    for (const makeRoom of [() => {}, forgetPages]) {
      try {
        makeRoom();
        localStorage.setItem(prefix + entry.id, text);
        this.memory.delete(entry.id);
        return true;
      } catch { /* private mode or full */ }
    }
    this.memory.set(entry.id, entry);
    warnWhile(this.holds);
    return false;
  }

  // copy adds the core's copy to an entry, unless too much is kept here already.
  copy(entry, text) {
    if (this.size() + text.length > mostCopied) {
      this.full = true; // the form stays as it is; the core's storage has it
      return;
    }
    this.keep({ ...entry, copy: text });
  }

  drop(id) {
    this.memory.delete(id);
    this.full = false;
    try { localStorage.removeItem(prefix + id); } catch { /* no storage, so nothing was kept */ }
  }

  // left returns the entries that are still here, oldest first.
  left() {
    const entries = new Map(this.memory);
    try {
      for (const key of Object.keys(localStorage)) {
        const entry = key.startsWith(prefix) && read(localStorage.getItem(key));
        if (entry && entry.id && !entries.has(entry.id)) entries.set(entry.id, entry);
      }
    } catch { /* no storage */ }
    return [...entries.values()].sort((a, b) => a.at - b.at);
  }

  size() {
    try {
      return Object.keys(localStorage).filter((key) => key.startsWith(prefix))
        .reduce((sum, key) => sum + (localStorage.getItem(key) || '').length, 0);
    } catch {
      return 0;
    }
  }

  // blame counts that a core stopped while it handled the entry. After the second time the entry goes to the server.
  blame(entry) {
    entry.stopped = (entry.stopped || 0) + 1;
    this.keep(entry);
  }

  // newID returns 128 random bits as 26 letters and digits.
  newID() {
    const bytes = crypto.getRandomValues(new Uint8Array(26));
    return Array.from(bytes, (b) => 'abcdefghijklmnopqrstuvwxyz234567'[b & 31]).join('');
  }
}

function read(text) {
  try { return JSON.parse(text); } catch { return null; }
}

function forgetPages() {
  for (const key of Object.keys(localStorage)) if (key.startsWith(pages)) localStorage.removeItem(key);
}

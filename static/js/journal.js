// Journal is the second net: what was tapped is written here before the core hears of it, and leaves when the core has
// it on disk. It holds the forms as sent, each under its own name, so that tabs do not overwrite each other's; their ids
// make a repeat harmless.
const prefix = 'garlandry-journal ';

export class Journal {
  keep(entry) {
    try {
      localStorage.setItem(prefix + entry.id, JSON.stringify({ at: Date.now(), ...entry }));
    } catch { /* private mode or full: the core's own disk still holds it */ }
  }

  drop(id) {
    try { localStorage.removeItem(prefix + id); } catch { /* no storage, so nothing was kept */ }
  }

  // left gives what has not been answered for, oldest first.
  left() {
    try {
      return Object.keys(localStorage).filter((key) => key.startsWith(prefix)).map((key) => JSON.parse(localStorage.getItem(key)))
        .sort((a, b) => a.at - b.at);
    } catch {
      return []; // no storage, or not readable
    }
  }

  // blame notes that a core stopped over the entry, which goes to the server instead once that has happened twice.
  blame(entry) {
    entry.stopped = (entry.stopped || 0) + 1;
    this.keep(entry);
  }

  // newID gives 128 random bits as 26 letters and digits.
  newID() {
    const bytes = crypto.getRandomValues(new Uint8Array(26));
    return Array.from(bytes, (b) => 'abcdefghijklmnopqrstuvwxyz234567'[b & 31]).join('');
  }
}

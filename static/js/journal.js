// Journal is the second net: what was tapped is written here before the core hears of it, and leaves when the core has
// it on disk. It holds the forms as sent; their ids make a repeat harmless.
const name = 'garlandry-journal';
const most = 1 << 20;

export class Journal {
  constructor() {
    this.entries = [];
    try {
      this.entries = JSON.parse(localStorage.getItem(name) || '[]');
    } catch { /* no storage, or not readable: start empty */ }
  }

  keep(entry) {
    this.entries.push(entry);
    this.write();
  }

  drop(id) {
    this.entries = this.entries.filter((entry) => entry.id !== id);
    this.write();
  }

  left() {
    return [...this.entries];
  }

  write() {
    try {
      const text = JSON.stringify(this.entries);
      if (text.length <= most) localStorage.setItem(name, text);
    } catch { /* private mode or full: the core's own disk still holds it */ }
  }

  // newID gives 128 random bits as 26 letters and digits.
  newID() {
    const bytes = crypto.getRandomValues(new Uint8Array(26));
    return Array.from(bytes, (b) => 'abcdefghijklmnopqrstuvwxyz234567'[b & 31]).join('');
  }
}

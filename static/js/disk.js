// Disk is the phone's storage: text by key in one IndexedDB store. A commit is one transaction with strict durability,
// and it happens only if nobody else has committed since this tab last read. Loaded into the worker.
/* exported Disk */
const turnLimit = 2000; // ms to wait for the other tabs
const stuckLimit = 50; // once that was in vain
const answerLimit = 8000; // ms for the browser to answer: a handle that it closed in the background may never do so
const wakeEvery = 100; // ms

class Disk {
  constructor() {
    this.handle = null;
    this.patience = turnLimit;
  }

  open() {
    if (this.handle) return Promise.resolve(this.handle);
    return new Promise((resolve, reject) => {
      const request = indexedDB.open('garlandry', 1);
      request.onupgradeneeded = () => request.result.createObjectStore('text');
      request.onerror = () => reject(request.error);
      request.onblocked = () => reject(new Error('blocked by another tab'));
      request.onsuccess = () => {
        const handle = request.result;
        handle.onversionchange = () => { handle.close(); this.handle = null; };
        handle.onclose = () => { this.handle = null; };
        this.handle = handle;
        resolve(handle);
      };
    });
  }

  // heal runs the work again once with a fresh handle: a browser may close the old one in the background.
  async heal(work) {
    try {
      return await this.inTime(work);
    } catch (error) {
      if (error && error.name === 'QuotaExceededError') throw error;
      const handle = this.handle;
      this.handle = null;
      try { if (handle) handle.close(); } catch { /* dead already */ }
      return this.inTime(work);
    }
  }

  // inTime opens the storage and does the work, and fails if the browser does not answer. Meanwhile it keeps the worker
  // awake, since WebKit hands some answers to a worker only when something else wakes it.
  inTime(work) {
    const wakes = setInterval(() => {}, wakeEvery);
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error('the storage does not answer')), answerLimit);
      this.open().then(work).then(resolve, reject).finally(() => clearTimeout(timer));
    }).finally(() => clearInterval(wakes));
  }

  // read returns the keys and texts of each span, in order, with the generation. A span includes its first key and
  // excludes its last. One transaction reads everything, so no other tab's commit falls in between.
  read(spans) {
    return this.heal((handle) => new Promise((resolve, reject) => {
      const transaction = handle.transaction('text', 'readonly');
      const text = transaction.objectStore('text');
      const generation = text.get('generation');
      const ranges = spans.map(([first, last]) => IDBKeyRange.bound(first, last, false, true));
      const keys = ranges.map((range) => text.getAllKeys(range));
      const values = ranges.map((range) => text.getAll(range));
      const all = (requests) => requests.flatMap((request) => request.result);
      transaction.oncomplete = () => resolve({
        generation: generation.result || '', keys: all(keys), values: all(values),
      });
      transaction.onabort = () => reject(transaction.error || new Error('read ended'));
    }));
  }

  // commit resolves to true once the changes are on disk, or to false, with nothing changed, if the generation is not
  // the expected one. The token belongs to this commit alone. Where it is stored already, this is a second try, healed
  // after the first had gone through; a generation says nothing about whose it is.
  commit(expected, next, token, spans, deletes, puts) {
    return this.heal((handle) => new Promise((resolve, reject) => {
      const transaction = handle.transaction('text', 'readwrite', { durability: 'strict' });
      const text = transaction.objectStore('text');
      let stale = false;
      const last = text.get('commit');
      const generation = text.get('generation');
      generation.onsuccess = () => {
        if (last.result === token) return;
        if ((generation.result || '') !== expected) {
          stale = true;
          return;
        }
        for (const [first, end] of spans) text.delete(IDBKeyRange.bound(first, end, false, true));
        for (const key of deletes) text.delete(key);
        for (const [key, value] of puts) text.put(value, key);
        text.put(next, 'generation');
        text.put(token, 'commit');
        transaction.commit?.(); // without it the browser waits until this worker has handled each put's event
      };
      transaction.oncomplete = () => resolve(!stale);
      transaction.onabort = () => reject(transaction.error || new Error('write ended'));
    }));
  }

  // turn waits for this tab's turn to write and resolves to a function that ends the turn. Turns only keep things fair
  // between busy tabs; the generation alone keeps writes correct. Without locks (a page not served securely), or when a
  // sleeping tab holds its turn, work goes on without one.
  turn() {
    if (typeof navigator === 'undefined' || !navigator.locks) return Promise.resolve(() => {});
    return new Promise((resolve) => {
      const limit = new AbortController();
      const timer = setTimeout(() => { this.patience = stuckLimit; limit.abort(); }, this.patience);
      navigator.locks.request('garlandry-disk', { signal: limit.signal }, () => {
        clearTimeout(timer);
        this.patience = turnLimit;
        return new Promise((end) => { resolve(() => end()); });
      }).catch(() => resolve(() => {}));
    });
  }
}

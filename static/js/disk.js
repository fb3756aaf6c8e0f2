// Disk is the phone's storage: text by key in one IndexedDB store. A commit is one transaction with strict durability,
// and it happens only if nobody else has committed since this tab last read. Loaded into the worker.
/* exported Disk */
class Disk {
  constructor() {
    this.handle = null;
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

  // heal runs the work again once with a fresh handle, since a browser may kill the old one in the background.
  async heal(work) {
    try {
      return await work(await this.open());
    } catch (error) {
      if (error && error.name === 'QuotaExceededError') throw error;
      const handle = this.handle;
      this.handle = null;
      try { if (handle) handle.close(); } catch { /* dead already */ }
      return work(await this.open());
    }
  }

  // read gives the keys from first up to, but without, last, in order, and their texts.
  read(first, last) {
    return this.heal((handle) => new Promise((resolve, reject) => {
      const transaction = handle.transaction('text', 'readonly');
      const range = IDBKeyRange.bound(first, last, false, true);
      const keys = transaction.objectStore('text').getAllKeys(range);
      const values = transaction.objectStore('text').getAll(range);
      transaction.oncomplete = () => resolve([keys.result, values.result]);
      transaction.onabort = transaction.onerror = () => reject(transaction.error || new Error('read ended'));
    }));
  }

  // commit resolves to true once the changes are on disk, or to false, with nothing changed, if the generation is not
  // the expected one.
  commit(expected, next, spans, deletes, puts) {
    return this.heal((handle) => new Promise((resolve, reject) => {
      const transaction = handle.transaction('text', 'readwrite', { durability: 'strict' });
      const text = transaction.objectStore('text');
      let stale = false;
      const generation = text.get('generation');
      generation.onsuccess = () => {
        const found = generation.result || '';
        if (found === next) return; // healed after the first try had gone through
        if (found !== expected) {
          stale = true;
          return;
        }
        for (const [first, last] of spans) text.delete(IDBKeyRange.bound(first, last, false, true));
        for (const key of deletes) text.delete(key);
        for (const [key, value] of puts) text.put(value, key);
        text.put(next, 'generation');
      };
      transaction.oncomplete = () => resolve(!stale);
      transaction.onabort = transaction.onerror = () => reject(transaction.error || new Error('write ended'));
    }));
  }
}

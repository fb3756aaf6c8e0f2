// Runs static/js/disk.js in Node over an IndexedDB in memory, for the tests of package device.
//   node host.cjs DISK_JS FAKE_INDEXEDDB
// A line of JSON asks: { id, op, ... }. A line answers: { id, value } or { id, error }. { died } tells that a connection
// has died as asked for; its work goes on at "goOn".
'use strict';
const fs = require('node:fs');
const path = require('node:path');
const readline = require('node:readline');
const vm = require('node:vm');

const [, , source, database] = process.argv;
require(path.join(database, 'auto'));
if (!globalThis.navigator || !globalThis.navigator.locks) { // Node before 24: turns in the order asked for, as browsers give them
  let last = Promise.resolve();
  const request = (name, options, work) => {
    const done = last.then(work);
    last = done.catch(() => {});
    return done;
  };
  Object.defineProperty(globalThis, 'navigator', { value: { locks: { request } } });
}
vm.runInThisContext(fs.readFileSync(source, 'utf8'), { filename: source });
const newDisk = vm.runInThisContext('() => new Disk()');

const disks = [];
const turns = new Map(); // by disk: what ends its turn
const written = []; // the options of each transaction that disk.js opened for writing
let fault = null; // { connection, disk, how }
const goOn = new Map(); // by disk: lets a connection that died be noticed
const timers = new Map(); // what pending timers do, by the timer's id
let silent = null; // a connection whose next transaction never reports its end
let unheard = null; // resolves once that transaction has ended
let endUnheard = null;

// Timers of a second and more fire only at the op timeout.
const realSetTimeout = globalThis.setTimeout;
const realClearTimeout = globalThis.clearTimeout;
globalThis.setTimeout = (work, ms, ...rest) => {
  if (!(ms >= 1000)) return realSetTimeout(work, ms, ...rest);
  const id = {};
  timers.set(id, work);
  return id;
};
globalThis.clearTimeout = (id) => { if (!timers.delete(id)) realClearTimeout(id); };

const say = (message) => process.stdout.write(JSON.stringify(message) + '\n');

const begin = IDBDatabase.prototype.transaction;
IDBDatabase.prototype.transaction = function transaction(names, mode, options) {
  const work = begin.call(this, names, mode, options);
  if (silent === this) {
    silent = null;
    for (const name of ['oncomplete', 'onabort']) Object.defineProperty(work, name, { get: () => null, set: () => {} });
    work.addEventListener('complete', () => endUnheard());
  }
  if (mode !== 'readwrite') return work;
  written.push(options && options.durability ? options.durability : '');
  if (fault && fault.connection === this) {
    breakUp(work, fault);
    fault = null;
  }
  return work;
};

// breakUp makes a transaction end as asked for, and holds back the news until "goOn".
function breakUp(work, { disk, how }) {
  const heard = {};
  for (const name of ['oncomplete', 'onabort', 'onerror']) {
    Object.defineProperty(work, name, { get: () => null, set: (handler) => { heard[name] = handler; } });
  }
  const end = (handler) => {
    goOn.set(disk, () => { if (heard[handler]) heard[handler](); });
    say({ died: disk });
  };
  work.addEventListener('error', () => { if (heard.onerror) heard.onerror(); });
  work.addEventListener('abort', () => end('onabort'));
  work.addEventListener('complete', () => end(how === 'after' ? 'onabort' : 'oncomplete'));
  if (how === 'before') queueMicrotask(() => work.abort());
  if (how !== 'halfway' && how !== 'noRoom') return;
  const text = work.objectStore('text');
  const put = text.put;
  text.put = (...pair) => {
    const request = put.apply(text, pair);
    text.put = put;
    queueMicrotask(() => work._abort(how === 'noRoom' ? 'QuotaExceededError' : null));
    return request;
  };
}

const settled = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
  request.onblocked = () => reject(new Error('a handle stays open'));
});

const ops = {
  open: () => disks.push(newDisk()) - 1,
  read: ({ disk, spans }) => disks[disk].read(spans),
  commit: ({ disk, expected, next, token, spans, deletes, puts }) => disks[disk].commit(expected, next, token, spans, deletes, puts),
  turn: async ({ disk }) => { turns.set(disk, await disks[disk].turn()); },
  end: ({ disk }) => { turns.get(disk)(); },
  fault: async ({ disk, how }) => { fault = { connection: await disks[disk].open(), disk, how }; },
  goOn: ({ disk }) => { goOn.get(disk)(); },
  silence: async ({ disk }) => {
    unheard = new Promise((resolve) => { endUnheard = resolve; });
    silent = await disks[disk].open();
  },
  unheard: () => unheard,
  timeout: () => { // fires every pending timer
    const passed = [...timers.values()];
    timers.clear();
    for (const work of passed) work();
    return passed.length;
  },
  written: () => written,
  vanish: async () => { await settled(indexedDB.deleteDatabase('garlandry')); },
  old: async ({ rows }) => { // rows as an earlier build wrote them
    const request = indexedDB.open('garlandry', 1);
    request.onupgradeneeded = () => request.result.createObjectStore('text');
    const connection = await settled(request);
    const work = begin.call(connection, 'text', 'readwrite');
    for (const [key, value] of rows) work.objectStore('text').put(value, key);
    await new Promise((resolve) => { work.oncomplete = resolve; });
    connection.close();
  },
};

readline.createInterface({ input: process.stdin }).on('line', async (line) => {
  const question = JSON.parse(line);
  try {
    const value = await ops[question.op](question);
    say({ id: question.id, value: value === undefined ? null : value });
  } catch (error) {
    say({ id: question.id, error: String(error) });
  }
}).on('close', () => process.exit()); // whatever still waits, as it would if the script under test is broken

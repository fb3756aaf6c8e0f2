// The worker starts the core and gives it storage, the network and other tabs. Rules live in the core.
importScripts('disk.js');

const disk = new Disk();
const others = new BroadcastChannel('garlandry');
let deliver = null; // handles messages to the core
const early = [];
let otherTabs = false; // another tab has run a core beside this one
const turns = new MessageChannel(); // a message to itself comes after whatever waits

// host is what the core may call. Whatever takes time returns a promise.
self.garlandryHost = {
  read: (spans) => disk.read(spans),
  commit: (expected, next, token, spans, deletes, puts) => disk.commit(expected, next, token, spans, deletes, puts),
  turn: async () => (otherTabs ? disk.turn() : () => {}),
  fetch: request,
  say: (message) => self.postMessage(message),
  tellOthers: () => others.postMessage('changed'),
  pause: pauseFor,
  zone: offset,
  home: () => { try { return Intl.DateTimeFormat().resolvedOptions().timeZone || ''; } catch { return ''; } },
  language: () => navigator.language || '',
  at: '', // the job that the core works on, which is to blame if it stops there
  working: (job) => { self.garlandryHost.at = job; },
  stopped: (job, why) => { console.error(why); self.postMessage({ type: 'aside', job }); },
  listen: (ear) => {
    deliver = ear;
    self.postMessage({ type: 'ready' });
    for (const message of early.splice(0)) deliver(message);
  },
};

// pauseFor lets what waits go first. WebKit sometimes loses a worker's message to itself; then a timer ends the pause.
const pauseLimit = 100; // ms
function pauseFor() {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, pauseLimit);
    turns.port1.onmessage = () => { clearTimeout(timer); resolve(); };
    turns.port2.postMessage(0);
  });
}

// offset gives what the browser writes for a zone's distance from UTC at a time, such as "GMT+01:00"; "" if it knows no
// such zone.
const zones = new Map();
function offset(zone, ms) {
  try {
    if (!zones.has(zone)) {
      const options = { timeZone: zone || undefined, timeZoneName: 'longOffset' };
      zones.set(zone, new Intl.DateTimeFormat('en-US', options));
    }
    return zones.get(zone).formatToParts(ms).find((part) => part.type === 'timeZoneName').value;
  } catch {
    return '';
  }
}

// request is one exchange with the server, with a limit: { status, text }, or status 0 when nothing came.
async function request(method, path, body, limit) {
  const stop = new AbortController();
  const timer = setTimeout(() => stop.abort(), limit);
  try {
    const headers = body ? { 'Content-Type': 'application/json' } : {};
    const answer = await fetch(path, {
      method, body: body || undefined, headers, credentials: 'same-origin', cache: 'no-store',
      signal: stop.signal, redirect: 'error',
    });
    return { status: answer.status, text: await answer.text(), after: answer.headers.get('Retry-After') || '' };
  } catch (error) {
    return { status: 0, text: String(error && error.name), after: '' };
  } finally {
    clearTimeout(timer);
  }
}

// stop tells the page, once, that the core is gone, and over which job. A core that is gone may still be called.
let gone = false;
function stop(why) {
  if (gone) return;
  gone = true;
  self.postMessage({ type: 'failed', why: String(why), at: self.garlandryHost.at });
}

// Go does not see what kills the core: a full stack, memory that ran out, a trap.
function ends(error) {
  return error instanceof WebAssembly.RuntimeError || error instanceof RangeError || error?.name === 'InternalError';
}
self.addEventListener('error', (event) => {
  if (!ends(event.error)) return;
  event.preventDefault(); // the page hears it from here
  stop(event.error);
});
self.addEventListener('unhandledrejection', (event) => { if (ends(event.reason)) stop(event.reason); });
new BroadcastChannel('garlandry-left').onmessage = () => self.close(); // signed out, see leave.js

// Tabs that start tell the others, and those answer. A tab that has heard of none writes without asking for a turn.
others.onmessage = ({ data }) => {
  otherTabs = true;
  if (data === 'opened') others.postMessage('here');
  if (data === 'changed' && deliver) deliver({ type: 'others' });
};
others.postMessage('opened');

self.onmessage = (event) => {
  if (event.data.type === 'start') return start(event.data);
  if (deliver) deliver(event.data);
  else early.push(event.data);
};

// start fetches the core, again if it comes cut off, and runs it.
const pauses = [1000, 4000];
async function start({ build, core, exec, role, aside }) {
  Object.assign(self.garlandryHost, { build: build || '', role: role || '', aside: (aside || []).join(' ') });
  for (let attempt = 0; ; attempt++) {
    const wakes = setInterval(() => {}, 100); // WebKit says that the core is compiled only when something wakes it
    try {
      if (!self.Go) importScripts(exec);
      const go = new Go();
      go.env = { GOGC: '400', GOMEMLIMIT: '96MiB' }; // collect garbage rarely while there is room
      const { instance } = await WebAssembly.instantiateStreaming(fetch(core), go.importObject);
      go.run(instance).then(() => stop('the core stopped'), stop);
      return;
    } catch (error) {
      if (attempt === pauses.length) return stop(error);
      await new Promise((resolve) => { setTimeout(resolve, pauses[attempt]); });
    } finally {
      clearInterval(wakes);
    }
  }
}

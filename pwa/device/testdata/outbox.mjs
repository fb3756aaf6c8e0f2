// Runs static/js/outbox.js in Node against a server that gives one answer, for the tests of package device.
//   node outbox.mjs OUTBOX_JS ANSWER
// ANSWER is { status, form } in JSON, form being the server's mark, or null where nothing comes back. It prints what
// became of one entry: whether the journal held it when it was sent and after the answer, and whether it waits still.
import { readFileSync } from 'node:fs';

const [, , source, text] = process.argv;
const { Outbox } = await import(`data:text/javascript,${encodeURIComponent(readFileSync(source, 'utf8'))}`);
const told = JSON.parse(text);

class Journal {
  constructor() { this.entries = [{ id: 'one', path: '/jobs/x/do', fields: [['act', 'tick']] }]; }
  left() { return [...this.entries]; }
  drop(id) { this.entries = this.entries.filter((entry) => entry.id !== id); }
}

const journal = new Journal();
let sent = null;
globalThis.fetch = async (path, options) => {
  sent = { id: options.headers['Idempotency-Key'], body: options.body.toString(), held: journal.left().length === 1 };
  if (!told) throw new TypeError('no signal');
  return new Response('', { status: told.status, headers: told.form ? { 'Garlandry-Form': told.form } : {} });
};

const outbox = new Outbox(journal, (entry) => {
  console.log(JSON.stringify({ ...sent, kept: journal.left().length === 1, waits: outbox.size === 1, settled: entry !== null }));
  process.exit(0); // it would send again after a pause
});
outbox.add(journal.left()[0]);

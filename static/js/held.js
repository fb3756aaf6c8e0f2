// Where the storage refuses, this page alone holds what was typed. The browser then asks before the page goes. It is
// told so only from then on, since some browsers keep no page with such a question for going back.
const holders = new Set();

// warnWhile has the browser ask while holds returns true.
export function warnWhile(holds) {
  holders.add(holds);
  globalThis.addEventListener?.('beforeunload', ask);
}

function ask(event) {
  if (![...holders].some((holds) => holds())) return;
  event.preventDefault();
  event.returnValue = true; // for browsers before 2023
}

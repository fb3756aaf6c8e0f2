package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trapping makes the worker's clock throw while the core works on one job. The core's runtime calls the clock and
// catches nothing, so the error ends the core as a stack overflow or a trap does.
const trapping = `
;(() => {
  const now = performance.now.bind(performance);
  let work = '', count = 0;
  const real = self.garlandryHost.working;
  self.garlandryHost.working = (job) => { work = job; count = 0; real(job); };
  performance.now = () => {
    if (work === 'BAD' && self.garlandryHost.at === work) throw new RangeError('Maximum call stack size exceeded');
    return now();
  };
})();`

// panicking makes the host refuse a call about work on one job, which causes a panic in the core.
const panicking = `
;(() => {
  const real = self.garlandryHost.working;
  self.garlandryHost.working = (job) => {
	real(job); if (job === 'BAD') throw new Error('a fault in work on one job'); };
})();`

// TestBrowserACoreThatStopsOverOneJob checks that a core that ends while it works on one job restarts without it. The
// page names the job, other jobs work, the job's waiting operations are sent, and the server shows it. A tap opens it
// again once the fault is gone.
func TestBrowserACoreThatStopsOverOneJob(t *testing.T) {
	inBrowser(t)
	for _, row := range []struct{ name, fault string }{{"it traps", trapping}, {"it panics", panicking}} {
		t.Run(row.name, func(t *testing.T) {
			dir := t.TempDir()
			server := startServer(t, dir, "", true)
			owner := visitor(t, server.link, "")
			good := anyJob(t, owner, server.address)
			bring(t, owner, server.address, "badjob", "The bad job")
			served := 0
			address := between(t, server, func(path string, body []byte) []byte {
				if !strings.Contains(path, "/worker.") {
					return body
				}
				served++
				return append(body, strings.ReplaceAll(row.fault, "BAD", "badjob")...)
			})
			p := newPhone(t, t.TempDir())
			p.join(invite(t, binary(t, ""), dir, address), "")
			p.until(`document.querySelector('#page [data-again="badjob"]')`)
			require.Positive(t, served, "the worker must have loaded the fault")
			p.sees("The bad job")
			p.sees("can’t open this job")
			p.shot("stopped-" + strings.ReplaceAll(row.name, " ", "-"))
			goodJobWorks(p, server, owner, good, address)

			p.open(address + "/jobs/badjob/brief")
			p.until(`document.documentElement.dataset.ready === 'yes'`)
			p.fill(`#page [name="title"]`, "Renamed by the server")
			p.tap(`#page form[data-core] button[type=submit]`)
			p.sees("Renamed by the server")

			p.open(address + "/")
			p.ready()
			p.until(`document.querySelector('#page [data-again="badjob"]')`)
			assert.Equal(t, "2", p.text(`JSON.parse(localStorage.getItem('garlandry-stopped')).jobs.badjob`))
			p.tap(`[data-again="badjob"]`)
			p.until(`document.querySelector('#page [data-again="badjob"]') && document.documentElement.dataset.ready === 'yes'`)
		})
	}
}

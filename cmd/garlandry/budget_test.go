package main

import (
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"garlandry/testdata/browsertest"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	budgetTimes  = 4 // how much slower than this machine
	budgetTaps   = 100
	budgetStarts = 7
)

// budgets skips a test unless budgets are asked for. Figures are printed; only those of [bounded] are asserted.
func budgets(t *testing.T) {
	t.Helper()
	if os.Getenv("GARLANDRY_BUDGETS") == "" {
		t.Skip(
			"prints the budgets' figures; run: .ci/budgets, or GARLANDRY_BUDGETS=1 go test ./cmd/garlandry -run Budget -v",
		)
	}
}

// figure prints one line of the budgets' table: name, value, bound. A bound of 0 means none. Times are never asserted,
// because they depend on the machine's load.
func figure(name string, value float64, unit string, budget float64) {
	over := ""
	if budget > 0 && value > budget {
		over = "  OVER"
	}
	fmt.Printf("budget: %-58s %10.1f %-3s %10.1f%s\n", name, value, unit, budget, over)
}

// bounded prints a figure and fails if it is over its bound. Use it for figures that do not depend on the machine's
// load.
func bounded(t *testing.T, name string, value float64, unit string, budget float64) {
	t.Helper()
	figure(name, value, unit, budget)
	assert.LessOrEqual(t, value, budget, "%s, in %s", name, unit)
}

// share returns the nearest-rank quantile: the value at or below which that share of the values lies.
func share(values []float64, of float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	return sorted[max(0, int(math.Ceil(of*float64(len(sorted))))-1)]
}

// slowPhone slows page and workers down and prints by how much it worked.
func slowPhone(t *testing.T, p *phone, what string) {
	t.Helper()
	freePage, freeWorker := p.pageTakes(), p.workerTakes()
	freePage, freeWorker = min(freePage, p.pageTakes(), p.pageTakes()), min(freeWorker, p.workerTakes())
	if err := brakePhone(t, budgetTimes); err != nil {
		fmt.Printf(
			"budget: note: the kernel does not slow the phone down (%v); the page is slowed by the browser, workers are not\n",
			err,
		)
		p.slowed(budgetTimes)
	}
	slowPage, slowWorker := min(p.pageTakes(), p.pageTakes(), p.pageTakes()), min(p.workerTakes(), p.workerTakes())
	load, _ := os.ReadFile("/proc/loadavg") // missing on other systems
	fmt.Printf("budget: note: %s: page slowed %.1f times, worker %.1f times; the machine's load: %.14s\n", what,
		slowPage/freePage, slowWorker/freeWorker, load)
}

// taps measures taps on a tally one after the other: when the tap is painted, when it is on disk (the core tells other
// tabs right after the transaction), and when the new count is painted. Before each tap it waits until everything is
// shared and nothing is being written.
const taps = `async (n) => {
	const rows = [], channel = new BroadcastChannel('garlandry');
	let last = 0, stored = () => {};
	channel.onmessage = () => { last = performance.now(); stored(last); };
	const atRest = () => document.documentElement.dataset.waiting === '0' &&
		!document.querySelector('[data-pending]') && performance.now() - last > 800;
	const frame = () => new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel();
		c.port1.onmessage = done; c.port2.postMessage(0); }));
	const until = (holds) => new Promise(done => { const look = () => holds() ? done() : setTimeout(look, 5); look(); });
	const count = () => document.querySelector('#doing').innerText.split('+1')[0]; // a full card counts below its figure
	for (let i = 0; i < n; i++) {
		await until(atRest);
		const before = count();
		const kept = new Promise(done => { stored = done; });
		const start = performance.now();
		document.querySelector('form:has([name=act][value=add]):has([name=n][value="1"]) button').click();
		await until(() => document.querySelector('#doing[data-pending]') || count() !== before);
		await frame();
		const painted = performance.now() - start;
		const disk = await kept - start;
		await until(() => count() !== before);
		await frame();
		rows.push([painted, disk, performance.now() - start].join(' '));
	}
	return rows.join('\n');
}`

// demoPhone returns the owner's phone beside a demo server, and the address of the demo job.
func demoPhone(t *testing.T) (p *phone, at string) {
	t.Helper()
	server := startProcess(t, binary(t, ""), t.TempDir(), "", "--demo")
	p = newPhone(t, t.TempDir(), browsertest.Optimised)
	p.join(server.link, "")
	p.ready()
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	return p, p.text(`document.querySelector('a[href^="/jobs/"]').href`)
}

func TestBudgetTap(t *testing.T) {
	chromium(t)
	budgets(t)
	p, at := demoPhone(t)
	p.open(at + "/cards")
	p.ready()
	p.open(p.text(`document.querySelector('a[href*="/cards/make/"]').href`))
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`)
	slowPhone(t, p, "taps")
	value, err := chromedp.Run(p.ctx,
		chromedp.Evaluate[string](`(`+taps+`)(`+strconv.Itoa(budgetTaps)+`)`, chromedp.EvalAwaitPromise))
	p.check(err)
	var painted, stored, shown []float64
	for _, line := range strings.Split(value, "\n") {
		var a, b, c float64
		_, err := fmt.Sscan(line, &a, &b, &c)
		require.NoError(t, err)
		painted, stored, shown = append(painted, a), append(stored, b), append(shown, c)
	}
	require.Len(t, painted, budgetTaps)
	figure("tap to painted, p95, 4x", share(painted, .95), "ms", 50)
	figure("tap to stored, p99, 4x", share(stored, .99), "ms", 50)
	figure("tap to stored, median, 4x", share(stored, .5), "ms", 0)
	figure("tap to the new count painted, p95, 4x", share(shown, .95), "ms", 0)
}

// firstList records when the list of jobs is first painted and when the core is ready.
const firstList = `(() => {
	const look = () => {
		if (!window.listAt && document.querySelector('#page a[href^="/jobs/"]'))
			requestAnimationFrame(() => { const c = new MessageChannel();
			c.port1.onmessage = () => { window.listAt = window.listAt || performance.now(); }; c.port2.postMessage(0); });
		if (document.documentElement && document.documentElement.dataset.ready === 'yes')
			window.readyAt = window.readyAt || performance.now();
		if (!window.listAt || !window.readyAt) setTimeout(look, 5);
	};
	look();
})()`

// TestBudgetColdStart opens the app in a freshly started browser while the server is down.
func TestBudgetColdStart(t *testing.T) {
	chromium(t)
	budgets(t)
	profile := t.TempDir()
	server := startProcess(t, binary(t, ""), t.TempDir(), "", "--demo")
	p := newPhone(t, profile, browsertest.Optimised)
	p.join(server.link, "")
	p.ready()
	p.until(`document.querySelector('a[href^="/jobs/"]')`)
	p.open(server.address + "/") // on the second visit the browser caches the compiled core
	p.ready()
	p.until(`document.querySelector('a[href^="/jobs/"]') && document.querySelector('#state').innerText.includes('hared')`)
	server.stop()
	p.close()
	var listed, ready []float64
	for i := range budgetStarts {
		p = newPhone(t, profile, browsertest.Optimised)
		if i == 0 {
			p.open(server.address + "/")
			p.ready()
			slowPhone(t, p, "cold starts")
			p.open("about:blank")
		}
		_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument,
			page.AddScriptToEvaluateOnNewDocumentParams{Source: firstList})
		p.check(err)
		p.open(server.address + "/")
		p.until(`window.listAt && window.readyAt`)
		var list, core float64
		_, err = fmt.Sscan(p.text("`${window.listAt} ${window.readyAt}`"), &list, &core)
		require.NoError(t, err)
		listed, ready = append(listed, list), append(ready, max(0, core-list))
		p.close()
	}
	figure(fmt.Sprintf("offline cold start to usable list, median of %d, 4x", budgetStarts), share(listed, .5), "ms", 600)
	figure("offline cold start to usable list, slowest, 4x", slices.Max(listed), "ms", 600)
	figure("offline cold start: core ready after the list, median, 4x", share(ready, .5), "ms", 1200)
	figure("offline cold start: core ready after the list, slowest, 4x", slices.Max(ready), "ms", 1200)
}

// TestBudgetServerMemory measures the server's resident memory.
func TestBudgetServerMemory(t *testing.T) {
	budgets(t)
	server := startProcess(t, binary(t, ""), t.TempDir(), "", "--demo")
	<-time.After(3 * time.Second) // let it come to rest
	bounded(t, "server at rest, nobody came yet", residentMB(t, server), "MB", 40)
	owner := visitor(t, server.link, "")
	id := anyJob(t, owner, server.address)
	for _, path := range []string{"/jobs/" + id, "/jobs/" + id + "/pack", "/sw.js", "/shell"} {
		answer, err := owner.Get(server.address + path)
		require.NoError(t, err)
		_, err = io.Copy(io.Discard, answer.Body)
		require.NoError(t, err)
		require.NoError(t, answer.Body.Close())
	}
	records(t, owner, server.address, id)
	<-time.After(3 * time.Second)
	bounded(t, "server at rest, after one visitor", residentMB(t, server), "MB", 40)
}

func residentMB(t *testing.T, p *process) float64 {
	t.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", p.command.Process.Pid))
	require.NoError(t, err)
	for _, line := range strings.Split(string(status), "\n") {
		if text, found := strings.CutPrefix(line, "VmRSS:"); found {
			kB, err := strconv.ParseFloat(strings.Fields(text)[0], 64)
			require.NoError(t, err)
			return kB / 1024
		}
	}
	t.Fatal("the kernel does not say how much memory the process has")
	return 0
}

package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

const budgetLooks = 40

// visits goes from the clock to the phone's page and back while the fixes are being computed. It measures from each tap
// to the painted page. Without busy it starts from a page that computes nothing.
const visits = `async (n, busy) => {
	const frame = () => new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel();
		c.port1.onmessage = done; c.port2.postMessage(0); }));
	const until = (holds) => new Promise(done => { const c = new MessageChannel();
		c.port1.onmessage = look;
			function look() { holds() ? done() : setTimeout(() => c.port2.postMessage(0), 2); } look(); });
	const wait = (ms) => new Promise(done => setTimeout(done, ms));
	const rows = [], here = location.pathname;
	for (let i = 0; i < n; i++) {
		await until(() => location.pathname === here && (!busy || document.querySelector('.looking')));
		await wait(100 + i * 37 % 400);
		if (busy && !document.querySelector('.looking')) throw 'the help was there before the tap';
		const start = performance.now();
		document.querySelector('a[href="/phone"]').click();
		await until(() => location.pathname === '/phone');
		await frame();
		rows.push(performance.now() - start);
		history.back();
	}
	return rows.join(' ');
}`

// firstClock visits pages of a job and opens its clock from the last one. It measures from the tap to the first painted
// answer, to the refined forecast, and to the fixes.
const firstClock = `async (ways) => {
	const frame = () => new Promise(done => requestAnimationFrame(() => { const c = new MessageChannel();
		c.port1.onmessage = done; c.port2.postMessage(0); }));
	const until = (holds) => new Promise(done => { const look = () => holds() ? done() : setTimeout(look, 2); look(); });
	const link = document.createElement('a');
	for (const to of ways) {
		const way = document.createElement('a');
		way.href = location.pathname.replace(/\/[a-z]+$/, to);
		document.querySelector('#page').append(way);
		way.click();
		await until(() => location.pathname.endsWith(to) && !way.isConnected);
		await frame();
	}
	link.href = location.pathname.replace(/\/[a-z]+$/, '/clock') + '?help=1';
	document.querySelector('#page').append(link);
	const start = performance.now(), rows = [];
	link.click();
	for (const there of ['#clock-answer .facts', 'settled', '#cutline, #fixes']) {
		await until(() => there === 'settled' ? document.querySelector('#clock-answer').innerText.includes('Odds by then') :
			document.querySelector(there));
		await frame();
		rows.push(performance.now() - start);
	}
	return rows.join(' ');
}`

// TestBudgetClock measures the clock of the demo job on a slowed phone: how soon it answers, and how long a tap waits
// while the fixes are computed.
func TestBudgetClock(t *testing.T) {
	chromium(t)
	budgets(t)
	p, at := demoPhone(t)
	p.open(at + "/counts")
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`)
	slowPhone(t, p, "clock")
	run := func(script, args string) (values []float64) {
		text, err := chromedp.Run(p.ctx, chromedp.Evaluate[string](`(`+script+`)(`+args+`)`, chromedp.EvalAwaitPromise))
		p.check(err)
		for _, word := range strings.Fields(text) {
			var value float64
			_, err := fmt.Sscan(word, &value)
			require.NoError(t, err)
			values = append(values, value)
		}
		return values
	}
	first := run(firstClock, "['/pack', '/counts']")
	require.Len(t, first, 3)
	figure("clock: tap to the first answer painted, 4x", first[0], "ms", 300)
	figure("clock: tap to the odds of 2,000 runs painted, 4x", first[1], "ms", 1000)
	figure("clock: tap to what would help painted, 4x", first[2], "ms", 0)
	p.open(at + "/history") // this page does not have the forecast prepared
	p.ready()
	first = run(firstClock, "[]")
	require.Len(t, first, 3)
	figure("clock, not prepared: tap to the first answer painted, 4x", first[0], "ms", 300)
	figure("clock, not prepared: tap to the odds painted, 4x", first[1], "ms", 1000)
	p.open(at + "/counts")
	p.ready()
	p.until(`document.documentElement.dataset.waiting === '0'`)
	quiet := run(visits, fmt.Sprint(budgetLooks, ", false"))
	p.open(at + "/clock?help=1")
	p.ready()
	taps := run(visits, fmt.Sprint(budgetLooks, ", true"))
	require.Len(t, taps, budgetLooks)
	figure("tap to the page painted at rest, p95, 4x", share(quiet, .95), "ms", 0)
	figure("tap to the page painted while help is worked out, p95, 4x", share(taps, .95), "ms", 100)
	figure("tap to the page painted while help is worked out, median", share(taps, .5), "ms", 0)
}

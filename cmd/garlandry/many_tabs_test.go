package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/testdata/long"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// overhears records the core's answer to each form of the page: saved, refused, or neither. It also provides taps.
const overhears = `(() => {
	if (!self.Worker) return;
	const asked = new Map(), told = [], refused = [], neither = [], bell = new EventTarget();
	const Plain = self.Worker, turns = new MessageChannel();
	turns.port1.onmessage = () => bell.dispatchEvent(new Event('answer'));
	self.Worker = class extends Plain {
		constructor(...given) {
			super(...given);
			this.addEventListener('message', ({ data }) => {
				if (!asked.has(data.number)) return;
				(data.stored ? told : data.refused ? refused : neither).push(Object.fromEntries(asked.get(data.number)));
				asked.delete(data.number);
				turns.port2.postMessage(0); // by now the page has rendered it
			});
		}
		postMessage(message, ...more) {
			if (message.type === 'post') asked.set(message.number, message.form);
			super.postMessage(message, ...more);
		}
	};
	const answers = () => told.length + refused.length + neither.length;
	const until = async (n) => { while (answers() < n)
		await new Promise((resolve) => bell.addEventListener('answer', resolve, { once: true })); };
	self.heard = () => JSON.stringify({ told, refused, neither });
	self.tapOnce = () => document.querySelector('form:has([name=act][value=add]):has([name=n][value="1"]) button').click();
	self.answered = (n) => until(n);
	self.tapTimes = async (n) => {
		const goal = answers() + asked.size + n;
		for (let i = 0; i < n; i++) {
			self.tapOnce();
			await new Promise((resolve) => { const turn = new MessageChannel();
				turn.port1.onmessage = resolve; turn.port2.postMessage(0); });
		}
		await until(goal);
	};
	self.noteTimes = async (n, name) => {
		for (let i = 0; i < n; i++) {
			document.querySelector('#note-text').value = name + ' ' + i;
			document.querySelector('#note-text').form.querySelector('button').click();
			await until(answers() + 1);
		}
	};
})()`

// heard holds the answers to the forms of one phone's pages.
type heard struct {
	Told, Refused, Neither []map[string]string
}

func (h heard) count(act string) int {
	n := 0
	for _, form := range h.Told {
		if form["act"] == act {
			n++
		}
	}
	return n
}

// atOnce evaluates a promise in several tabs at the same time.
func atOnce(t *testing.T, tabs []*phone, expression func(i int) string) {
	t.Helper()
	errs := make([]error, len(tabs))
	var all sync.WaitGroup
	for i, tab := range tabs {
		all.Go(func() {
			ctx, cancel := context.WithTimeout(tab.ctx, 90*time.Second)
			defer cancel()
			_, errs[i] = chromedp.Run(ctx,
				chromedp.Evaluate[string](`Promise.resolve(`+expression(i)+`).then(String)`, chromedp.EvalAwaitPromise))
		})
	}
	all.Wait()
	if err := errors.Join(errs...); err != nil {
		for _, tab := range tabs {
			t.Log(tab.text(`location.href + ' ' + self.heard() + ' ' + document.body.innerText.slice(0, 600)`))
		}
		require.NoError(t, err)
	}
}

// tapAbout taps in each tab in turn, then in all at once. Then all tabs write notes at once, each on its own card.
func tapAbout(t *testing.T, tabs []*phone, name string, taps, notes int) {
	t.Helper()
	each := taps / len(tabs) / 2
	before := make([]int, len(tabs))
	for i, tab := range tabs {
		before[i] = len(tab.heard().Told)
	}
	for range each {
		for _, tab := range tabs {
			tab.text(`self.tapOnce()`)
		}
	}
	atOnce(t, tabs, func(i int) string { return fmt.Sprintf(`self.answered(%d)`, before[i]+each) })
	atOnce(t, tabs, func(int) string { return fmt.Sprintf(`self.tapTimes(%d)`, each) })
	atOnce(t, tabs, func(i int) string { return fmt.Sprintf(`self.noteTimes(%d, '%s %d')`, notes/len(tabs), name, i) })
}

func (p *phone) heard() heard {
	p.t.Helper()
	var h heard
	require.NoError(p.t, json.Unmarshal([]byte(p.text(`self.heard()`)), &h))
	return h
}

// ownerOf joins as the owner in a new profile, and returns the job's id and its counted cards.
func ownerOf(t *testing.T, server *running) (profile *phone, id string, cards []string) {
	t.Helper()
	profile = newPhone(t, t.TempDir())
	profile.join(server.link, "")
	profile.ready()
	profile.until(`document.querySelector('a[href^="/jobs/"]')`)
	id = profile.text(`document.querySelector('a[href^="/jobs/"]').getAttribute('href').split('/')[2]`)
	profile.open(server.address + "/jobs/" + id + "/cards")
	profile.ready()
	list := profile.text(
		`[...new Set([...document.querySelectorAll('a[href*="/cards/make/"]')]
			.map((a) => a.getAttribute('href')))].join(' ')`,
	)
	return profile, id, strings.Fields(list)
}

// settle opens a counted card in a tab and waits until the phone's core serves it.
func (p *phone) settle(address string) {
	p.t.Helper()
	p.open(address)
	p.ready()
	p.until(
		`document.querySelector('form:has([name=act][value=add]):has([name=n][value="1"]) button') &&
			document.querySelector('#note-text')`,
	)
	p.until(`document.documentElement.dataset.waiting === '0'`)
}

// everythingTold checks that the server has exactly the taps and notes that the tabs were told are saved, and that the
// journal is empty.
func everythingTold(t *testing.T, server *running, id string, tabs []*phone, taps, notes int) {
	t.Helper()
	var all heard
	for _, tab := range tabs {
		tab.until(`document.documentElement.dataset.waiting === '0'`)
		h := tab.heard()
		all.Told, all.Refused, all.Neither = append(
			all.Told,
			h.Told...), append(
			all.Refused,
			h.Refused...), append(
			all.Neither,
			h.Neither...)
	}
	want, got := map[string]int{}, map[string]int{}
	for _, form := range all.Told {
		want[form["act"]+" "+form["e"]+" "+form["n"]+form["text"]]++
	}
	arrived := map[string]int{}
	for _, r := range records(t, visitor(t, server.link, ""), server.address, id) {
		switch {
		case r.Kind == job.Add && want[fmt.Sprint("add ", r.Entity, " ", r.Delta)] > 0:
			got[fmt.Sprint("add ", r.Entity, " ", r.Delta)]++
			arrived["add"]++
		case r.Field == "note" && strings.HasPrefix(r.Entity, "card/"):
			var text string
			require.NoError(t, json.Unmarshal(r.Value, &text))
			if strings.HasPrefix(text, "tabs ") {
				got["note "+r.Entity+" "+text]++
				arrived["note"]++
			}
		}
	}
	t.Logf(
		"figure: %d tabs: told as saved %d taps, arrived %d; told as saved %d notes, arrived %d; refused %d, neither %d",
		len(tabs), all.count("add"), arrived["add"], all.count("note"), arrived["note"], len(all.Refused), len(all.Neither),
	)
	assert.Equal(t, want, got, "each once, and nothing else")
	assert.Equal(t, taps, all.count("add"))
	assert.Equal(t, notes, all.count("note"))
	assert.Equal(t, "0",
		tabs[0].text(`Object.keys(localStorage).filter((key) => key.startsWith('garlandry-journal ')).length`))
}

// tabsLoseNothing has the tabs tap and write with signal, then without, and compares once the signal is back.
func tabsLoseNothing(t *testing.T, server *running, id string, tabs []*phone, taps, notes int) {
	t.Helper()
	tapAbout(t, tabs, "tabs with", taps/2, notes/2)
	server.stop()
	tapAbout(t, tabs, "tabs without", taps/2, notes/2)
	for _, tab := range tabs {
		tab.until(`document.documentElement.dataset.waiting !== '0'`)
	}
	again := startServer(t, server.dir, server.host(), false)
	for _, tab := range tabs {
		tab.text(`dispatchEvent(new Event('online'))`)
	}
	everythingTold(t, again, id, tabs, taps, notes)
}

// TestBrowserBusyTabs checks that everything a page reports as saved arrives exactly once, with two and three tabs of
// one profile, tapped in turn and at once, with and without signal.
func TestBrowserBusyTabs(t *testing.T) {
	rows := []struct{ tabs, taps, notes int }{{2, 40, 8}, {3, 24, 6}}
	if long.Wanted() {
		rows = []struct{ tabs, taps, notes int }{{2, 200, 24}, {3, 96, 24}}
	} else {
		t.Log("running a fifth of the taps; set GARLANDRY_LONG=1 for all")
	}
	for _, row := range rows {
		t.Run(fmt.Sprint(row.tabs, " tabs"), func(t *testing.T) {
			inBrowser(t)
			server := startServer(t, t.TempDir(), "", true)
			profile, id, cards := ownerOf(t, server)
			require.GreaterOrEqual(t, len(cards), row.tabs)
			profile.open("about:blank")
			var tabs []*phone
			for i := range row.tabs {
				tab := profile.tab()
				tab.onEveryPage(overhears)
				tab.settle(server.address + cards[i])
				tabs = append(tabs, tab)
			}
			tabsLoseNothing(t, server, id, tabs, row.taps, row.notes)
		})
	}
}

// TestBrowserTabThatHoldsTheDiskLock checks that a tab that never releases the disk lock, for example because it was
// suspended, does not stop another tab from saving.
func TestBrowserTabThatHoldsTheDiskLock(t *testing.T) {
	long.Test(t, "a tab that holds the disk lock")
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	p, id, cards := ownerOf(t, server)
	asleep := p.tab()
	asleep.open(server.address + "/phone")
	asleep.ready()
	p.onEveryPage(overhears)
	p.settle(server.address + cards[0])
	locks := `navigator.locks.query().then((q) => q.%s.filter((l) => l.name === 'garlandry-disk').length)`
	held, pending := fmt.Sprintf(locks, "held"), fmt.Sprintf(locks, "pending")
	asleep.text(`navigator.locks.request('garlandry-disk', () => new Promise(() => {}))`)
	require.Eventually(t, func() bool { return asleep.promised(held) == "1" }, 30*time.Second, 50*time.Millisecond)
	p.text(`self.tapOnce()`)
	require.Eventually(t, func() bool { return asleep.promised(pending) == "1" }, 2*time.Second, 10*time.Millisecond,
		"a tab that is not alone waits for the lock")
	atOnce(t, []*phone{p}, func(int) string { return `self.tapTimes(5)` })
	assert.Equal(t, "1", asleep.promised(held), "the lock is still held")
	p.until(`document.documentElement.dataset.waiting === '0'`)
	server.stop()
	again := startServer(t, server.dir, server.host(), false) // for a new link to count with
	everythingTold(t, again, id, []*phone{p}, 6, 0)
}

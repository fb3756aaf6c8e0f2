package main

import (
	"fmt"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/store"
	"garlandry/app/sync"
	"garlandry/testdata/long"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kept measures a tap right after the phone wakes: the milliseconds until the new count is painted, which happens only
// after it is stored.
const kept = `async () => {
	const until = (holds) => new Promise(done => { const look = () => holds() ? done() : setTimeout(look, 2); look(); });
	const count = () => document.querySelector('#doing .big b').innerText;
	const before = count();
	window.dispatchEvent(new Event('focus'));
	const start = performance.now();
	document.querySelector('form:has([name=act][value=add]):has([name=n][value="1"]) button').click();
	await until(() => count() !== before);
	return String(Math.round(performance.now() - start));
}`

// TestFortyJobsInTheBrowser checks that a phone with forty jobs wakes with a handful of requests, is never
// rate-limited, and that a tap does not wait for the other jobs.
func TestFortyJobsInTheBrowser(t *testing.T) {
	long.Test(t, "how many requests forty jobs make")
	inBrowser(t)
	const jobs = 40
	server := startServer(t, t.TempDir(), "", false)
	owner := visitor(t, server.link, "Desk")
	importReadingRooms(t, owner, server.address, jobs)
	f := newFront(t, server.address)
	token, err := store.Invite(server.dir, store.Options{})
	require.NoError(t, err)
	p := newPhone(t, t.TempDir())
	p.join(f.URL+"/j?as=owner#"+token, "")
	runs := func() { // the core runs; the service worker may still install, since no page is opened offline
		p.until(`document.documentElement.dataset.ready === 'yes' && !document.documentElement.dataset.shell`)
	}
	runs()
	p.until(fmt.Sprintf(`document.querySelectorAll('a[href^="/jobs/"]').length >= %d`, jobs))
	p.sees("All shared")
	asked, all, busy := f.count()
	t.Logf("first visit: %d requests, %d too many: %v", all, busy, asked)
	assert.Zero(t, busy)

	at := p.text(`document.querySelector('a[href^="/jobs/"]').href`)
	p.open(at + "/cards")
	runs()
	card := p.text(`document.querySelector('a[href*="/cards/make/"]').href`)
	f.hears(t, "/api/v1/me")
	f.count()
	p.open(card)
	runs()
	p.sees("All shared")
	// The sum is bounded, because a busy machine sends a request of one wake during the next. So many wakes notice a
	// fifth request even if the last wake's requests come too late to be counted.
	const wakes = 8
	total := 0
	for range wakes {
		p.wake()
		f.hears(t, "/api/v1/me")
		p.sees("All shared just now")
		asked, all, busy = f.count()
		t.Logf("a wake with nothing new: %d requests, %d too many: %v", all, busy, asked)
		assert.Zero(t, busy)
		total += all
	}
	assert.LessOrEqual(t, total, 4*(1+wakes), "opening the page and %d wakes", wakes)

	tickEveryJob(t, owner, server.address, jobs)
	f.count()
	p.wake()
	f.hears(t, "/api/v1/sync")
	p.sees("All shared just now")
	asked, all, busy = f.count()
	t.Logf("a wake with news in every job: %d requests, %d too many: %v", all, busy, asked)
	assert.Zero(t, busy)
	assert.LessOrEqual(t, all, 7, "%v", asked)

	measureTaps(t, p, f, jobs)
}

// importReadingRooms makes as many jobs from the demo's file.
func importReadingRooms(t *testing.T, owner *http.Client, address string, jobs int) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "reading-room.json"))
	require.NoError(t, err)
	for i := range jobs {
		title := strings.Replace(string(text), "Reading room reopening", fmt.Sprintf("Reading room %d", i), 1)
		answer, err := owner.PostForm(address+"/import", url.Values{"text": {title}})
		require.NoError(t, err)
		document(t, answer)
		require.Equal(t, 200, answer.StatusCode)
	}
}

// tickEveryJob ticks the loading of every job from another device.
func tickEveryJob(t *testing.T, owner *http.Client, address string, jobs int) {
	t.Helper()
	var me struct{ Jobs []struct{ ID string } }
	getJSON(t, owner, address+"/api/v1/me", &me)
	require.Len(t, me.Jobs, jobs)
	for i, j := range me.Jobs {
		op := job.Op{ID: newID(), Device: "deskphone", Number: uint64(i + 1), Version: 1, Kind: job.Set,
			Entity: "card/load", Field: "done", Value: []byte("true"), Wall: time.Now().UnixMilli()}
		for status := 0; status != 200; { // one session may send forty at once
			var err error
			_, status, err = exchange(owner, address, j.ID,
				sync.Request{Device: op.Device, Now: op.Wall, Ops: []job.Op{op}})
			require.NoError(t, err)
			require.Contains(t, []int{200, 429}, status)
		}
	}
}

// logTaps logs how long six taps take to be stored and painted.
func logTaps(t *testing.T, p *phone, jobs int, what string) {
	t.Helper()
	var took []string
	for range 6 {
		ms, err := chromedp.Run(p.ctx, chromedp.Evaluate[string](`(`+kept+`)()`, chromedp.EvalAwaitPromise))
		p.check(err)
		took = append(took, ms)
	}
	t.Logf("tap to stored and drawn, %d jobs, %s: %s ms", jobs, what, strings.Join(took, " "))
}

// measureTaps logs how long taps take with and without signal, at full speed and slowed down.
func measureTaps(t *testing.T, p *phone, f *front, jobs int) {
	t.Helper()
	measure := func(what string) { logTaps(t, p, jobs, what) }
	measure("with signal")
	f.signal(false)
	measure("without signal")
	if err := brakePhone(t, 6); err != nil {
		t.Logf("the kernel does not slow the phone down (%v), so no figures of a slow phone", err)
		return
	}
	measure("without signal, six times slower")
	f.signal(true)
	measure("with signal, six times slower")
}

package main

import (
	"encoding/json"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/store"
	"garlandry/pwa/serve"
	"garlandry/pwa/shell"
	"garlandry/static"
	"garlandry/testdata/before"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// numbers are what a build counted of a job.
type numbers struct {
	Pieces, Balloons []string
	Ties             int
	Pack, Cards      []string // the key and the number of each, and more
}

func counted(p plan.Plan) numbers {
	n := numbers{Ties: p.Ties}
	for _, c := range p.Pieces {
		n.Pieces = append(n.Pieces,
			fmt.Sprintf("%s: clusters %d, balloons %d, accents %d", c.Piece.ID, c.Clusters, c.Balloons, c.Accents))
	}
	for _, b := range p.Balloons {
		n.Balloons = append(n.Balloons,
			fmt.Sprintf("%d in %s: need %d, spare %d, buy %d", b.SizeIn, b.Colour.ID, b.Need, b.Spares, b.Buy))
	}
	return n
}

// TestJobsOfAnEarlierBuildAreCountedTheSame checks that the previous build's job files give the same counts, but for
// walls and the totals of jobs with walls. Every card and pack line that it knew is still named when somebody worked on
// it. What travels and how long it takes may change.
func TestJobsOfAnEarlierBuildAreCountedTheSame(t *testing.T) {
	earlier := before.Read[map[string]numbers](t, "numbers.json")
	require.Len(t, earlier, len(before.JobFiles(t)))
	for _, name := range before.JobFiles(t) {
		t.Run(name, func(t *testing.T) {
			changes, err := job.DecodeFile(before.File(t, name))
			require.NoError(t, err)
			want := earlier[name]
			require.NotEmpty(t, append(want.Pack, want.Cards...), "the earlier build's keys")
			got := counted(plan.Make(job.Preview(changes)))
			if walls := wallsOf(changes); len(walls) > 0 { // their strings are spaced by the width that one sees now
				want.Pieces, got.Pieces = without(want.Pieces, walls), without(got.Pieces, walls)
				want.Balloons, got.Balloons, want.Ties, got.Ties = nil, nil, 0, 0
			}
			assert.Equal(t, []any{want.Pieces, want.Balloons, want.Ties}, []any{got.Pieces, got.Balloons, got.Ties})
			for _, line := range want.Pack {
				key, _, _ := strings.Cut(line, ": ")
				changes = append(changes, job.Put(key, "have", 1))
			}
			for _, card := range want.Cards {
				key, _, _ := strings.Cut(card, ": ")
				changes = append(changes, job.Put(key, "done", true))
			}
			names := namesOf(plan.Make(job.Preview(changes)))
			for _, line := range append(want.Pack, want.Cards...) {
				key, _, _ := strings.Cut(line, ": ")
				assert.NotEmpty(t, names[key], key)
				assert.False(t, job.IsPack(key) && names[key] == job.KeyPath(key), "%s has no name but its key", key)
			}
		})
	}
}

// wallsOf returns the ids of a job's walls.
func wallsOf(changes []job.Change) (ids []string) {
	j := job.Preview(changes)
	for i := range j.Pieces {
		if j.Pieces[i].Kind == "wall" {
			ids = append(ids, j.Pieces[i].ID)
		}
	}
	return ids
}

// without leaves out the lines about pieces.
func without(lines, ids []string) []string {
	return slices.DeleteFunc(slices.Clone(lines), func(line string) bool {
		id, _, _ := strings.Cut(line, ": ")
		return slices.Contains(ids, id)
	})
}

// namesOf returns the names of a plan's pack lines and cards by key.
func namesOf(p plan.Plan) map[string]string {
	names := map[string]string{}
	for _, bag := range p.Pack {
		for _, l := range bag.Lines {
			names[l.Key] = l.Name
		}
	}
	for _, c := range p.Cards {
		names[c.Key] = c.Title
	}
	return names
}

// earlierServer serves the data directory of the previous build, on the day it was written.
func earlierServer(t *testing.T) *httptest.Server {
	t.Helper()
	dir, _ := before.Data(t)
	data, err := store.Open(dir, store.Options{Now: func() int64 { return before.Now }})
	require.NoError(t, err)
	built, err := shell.Load(static.Files)
	require.NoError(t, err)
	server, err := serve.New(serve.Config{Store: data, Shell: built, Log: slog.New(slog.DiscardHandler),
		Now: func() time.Time { return time.UnixMilli(before.Now) }, NewID: newID, Version: "test"})
	require.NoError(t, err)
	site := httptest.NewServer(server.Handler())
	t.Cleanup(func() {
		server.Stop()
		site.CloseClientConnections()
		site.Close()
		require.NoError(t, data.Close())
	})
	return site
}

// visit sends a request with a phone's cookie.
func visit(t *testing.T, p before.Phone, method, address string, form url.Values, id string) *http.Response {
	t.Helper()
	r, err := http.NewRequest(method, address, strings.NewReader(form.Encode()))
	require.NoError(t, err)
	r.AddCookie(&http.Cookie{Name: p.Cookie[0], Value: p.Cookie[1]})
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Idempotency-Key", id)
	}
	answer, err := http.DefaultClient.Do(r)
	require.NoError(t, err)
	return answer
}

// TestDataOfAnEarlierBuildIsServed requests every page of the previous build's data.
func TestDataOfAnEarlierBuildIsServed(t *testing.T) {
	site := earlierServer(t)
	said := before.Read[before.Said](t, "said.json")
	owner := before.Read[before.Phone](t, "phone-owner.json.gz")
	paths := []string{"/", "/security"}
	for _, id := range []string{said.Demo, said.Typed} {
		for _, page := range []string{"", "/next", "/brief", "/pieces", "/counts", "/shop", "/pack", "/cards", "/crew",
			"/figures", "/history", "/share", "/share/aside", "/clock", "/calendar.ics", "/export"} {
			paths = append(paths, "/jobs/"+id+page)
		}
	}
	for _, path := range paths {
		answer := visit(t, owner, "GET", site.URL+path, nil, "")
		assert.Equal(t, http.StatusOK, answer.StatusCode, path)
		require.NoError(t, answer.Body.Close())
	}
}

// TestAFormOfAnEarlierBuildIsAccepted checks that a form in the previous build's journal is accepted once.
func TestAFormOfAnEarlierBuildIsAccepted(t *testing.T) {
	site := earlierServer(t)
	helper := before.Read[before.Phone](t, "phone-helper.json.gz")
	sent := 0
	for key, text := range helper.Local {
		var entry struct {
			ID, Path, Copy string
			Fields         [][2]string
		}
		if !strings.HasPrefix(key, "garlandry-journal ") {
			continue
		}
		require.NoError(t, json.Unmarshal([]byte(text), &entry))
		if entry.Copy != "" {
			continue // the core's storage has it
		}
		form := url.Values{}
		for _, f := range entry.Fields {
			form.Add(f[0], f[1])
		}
		for range 2 {
			answer := visit(t, helper, "POST", site.URL+entry.Path, form, entry.ID)
			assert.Equal(t, "kept", answer.Header.Get("Garlandry-Form"))
			require.NoError(t, answer.Body.Close())
		}
		sent++
	}
	require.Equal(t, 1, sent)
	assert.Equal(t, map[int64]int{2: 1, 3: 1, 5: 1}, added(t, site.URL), "each once; the earlier 5 is set aside")
}

// added counts the additions to the door garland by their amount.
func added(t *testing.T, address string) map[int64]int {
	t.Helper()
	owner := before.Read[before.Phone](t, "phone-owner.json.gz")
	at, err := url.Parse(address)
	require.NoError(t, err)
	jar, err := cookiejar.New(nil)
	require.NoError(t, err)
	jar.SetCookies(at, []*http.Cookie{{Name: owner.Cookie[0], Value: owner.Cookie[1]}})
	client := &http.Client{Jar: jar}
	found := map[int64]int{}
	for _, r := range records(t, client, address, before.Read[before.Said](t, "said.json").Demo) {
		if r.Kind == job.Add && r.Entity == "card/make/door" {
			found[r.Delta]++
		}
	}
	return found
}

// fillsStorage writes a phone's rows into the browser's storage.
const fillsStorage = `((rows, local) => new Promise((done, failed) => {
	for (const key of Object.keys(local)) localStorage.setItem(key, local[key]);
	const open = indexedDB.open('garlandry', 1);
	open.onerror = failed;
	open.onupgradeneeded = () => open.result.createObjectStore('text');
	open.onsuccess = () => {
		const writes = open.result.transaction('text', 'readwrite');
		for (const [key, value] of rows) writes.objectStore('text').put(value, key);
		writes.oncomplete = () => { open.result.close(); done('filled'); };
	};
}))`

// TestBrowserSendsWhatAnEarlierBuildLeft checks that a helper's phone from the previous build sends its stored
// operations and its journal.
func TestBrowserSendsWhatAnEarlierBuildLeft(t *testing.T) {
	chromium(t)
	site := earlierServer(t)
	helper := before.Read[before.Phone](t, "phone-helper.json.gz")
	p := newPhone(t, t.TempDir())
	p.open(site.URL + "/robots.txt")
	rows, err := json.Marshal(helper.Stores.Text)
	require.NoError(t, err)
	local, err := json.Marshal(helper.Local)
	require.NoError(t, err)
	require.Equal(t, "filled", p.promised(fillsStorage+"("+string(rows)+","+string(local)+")"))
	_, err = chromedp.Call(p.ctx, network.SetCookie,
		network.SetCookieParams{Name: helper.Cookie[0], Value: helper.Cookie[1], URL: site.URL})
	require.NoError(t, err)
	p.open(site.URL + "/jobs/" + before.Read[before.Said](t, "said.json").Demo + "/cards/make/door")
	p.until(`document.documentElement.dataset.ready === 'yes' && document.documentElement.dataset.waiting === '0'`)
	p.until(journaled + ` === 0`)
	assert.Equal(t, map[int64]int{1: 1, 2: 2, 3: 1, 5: 1}, added(t, site.URL), "each once")
}

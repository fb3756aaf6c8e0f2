package device_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"strings"
	gosync "sync"
	"testing"

	"garlandry/app/job"
	"garlandry/app/sync/phone"
	"garlandry/app/sync/server"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// phoneTabs opens tabs of one new phone over the storage and has the first create a job without signal.
func (w *world) phoneTabs(count int, s storage) (tabs []*tab, at string) {
	session := server.Session{ID: "session-Dora", Author: job.Author{Role: job.Owner, Name: "Dora", Link: "link-Dora"}}
	wi, mates := &wire{world: w, session: session}, &[]*tab{}
	for range count {
		tabs = append(tabs, w.open(&handle{disk: &disk{}, left: -1, really: s.open()}, wi, mates))
	}
	tabs[0].enter("/")
	wi.set(offline)
	d := tabs[0].newJob("p")
	require.True(w.t, d.Stored)
	return tabs, d.Path
}

// told records what the pages were told is saved.
type told struct {
	mu           gosync.Mutex
	added        int64
	ticks, notes map[string]int
	refused      int
}

func newTold() *told { return &told{ticks: map[string]int{}, notes: map[string]int{}} }

// act taps once in a tab and records what the page was told.
func (s *told) act(b *tab, at string, kind int, name string) {
	form := []string{"act", "add", "e", "card/look", "n", "1"}
	switch kind {
	case 1:
		form = []string{"act", "tick", "e", "card/" + name}
	case 2:
		form = []string{"act", "note", "e", "card/" + name, "text", "note " + name}
	}
	d := b.post("post-"+name, at+"/do", append(form, "back", at+"/cards")...)
	s.mu.Lock()
	defer s.mu.Unlock()
	switch {
	case !d.Stored:
		s.refused++
		assert.True(b.t, d.Refused || d.Type == "unsaved", "%s: neither saved nor refused: %s %s", name, d.Type, d.Path)
	case kind == 0:
		s.added++
	case kind == 1:
		s.ticks["card/"+name]++
	case kind == 2:
		s.notes[`"note `+name+`"`]++
	}
}

func (s *told) sum() int { return int(s.added) + len(s.ticks) + len(s.notes) }

// arrives sends everything and checks that the server then has exactly what was reported as saved, each once.
func (s *told) arrives(w *world, tabs []*tab, at string) {
	tabs[0].wire.set(online)
	for _, b := range tabs {
		b.passTime(true)
		b.say("wake")
	}
	for _, b := range tabs {
		for b.get(at).Waiting > 0 {
			require.NoError(w.t, w.ctx.Err(), "something waits forever")
			b.say("wake")
			runtime.Gosched() // there may be one thread only
		}
	}
	recs := w.records(strings.TrimPrefix(at, "/jobs/"))
	added, notes := int64(0), map[string]int{}
	for _, r := range recs {
		switch {
		case r.Kind == job.Add && r.Entity == "card/look":
			added += r.Delta
		case r.Field == "note" && strings.HasPrefix(r.Entity, "card/"):
			notes[string(r.Value)]++
		}
	}
	assert.Equal(w.t, s.added, added, "counted")
	assert.Equal(w.t, s.ticks, ticked(recs), "ticked")
	assert.Equal(w.t, s.notes, notes, "noted")
	noNumberTwice(w.t, recs)
}

// busyTabs has tabs tap in random order, one after the other and all at once, with and without signal, while
// connections to the storage die.
func busyTabs(t *testing.T, seed uint64, count, rounds int, s storage) *told {
	w := newWorld(t)
	luck := rand.New(rand.NewPCG(seed, 9))
	tabs, at := w.phoneTabs(count, s)
	said := newTold()
	for round := range rounds {
		if luck.IntN(4) == 0 {
			off := luck.IntN(2) == 0
			tabs[0].wire.set(func(x *wire) { x.offline = off })
			tabs[luck.IntN(count)].say("wake")
		}
		if luck.IntN(3) == 0 {
			s.breaks(tabs[luck.IntN(count)].disk.really, []death{before, halfway, after}[luck.IntN(3)], nil)
		}
		kinds := []int{luck.IntN(3), luck.IntN(3), luck.IntN(3)}
		if luck.IntN(2) == 0 {
			said.act(tabs[luck.IntN(count)], at, kinds[0], fmt.Sprint("r", round))
			continue
		}
		var all gosync.WaitGroup
		for i, b := range tabs {
			all.Go(func() { said.act(b, at, kinds[i], fmt.Sprint("r", round, "-", i)) })
		}
		all.Wait()
	}
	said.arrives(w, tabs, at)
	assert.Zero(t, said.refused)
	return said
}

// inMemory returns the in-memory disk as a storage for the contract.
func inMemory() storage {
	d := &disk{rows: map[string]string{}}
	return storage{
		open: func() device.Disk { return &handle{disk: d, left: -1} },
		breaks: func(of device.Disk, how death, meanwhile func()) {
			of.(*handle).set(func(h *handle) { h.dies, h.meanwhile = how, meanwhile })
		},
		old: func(generation string, rows ...device.Entry) {
			d.mu.Lock()
			defer d.mu.Unlock()
			for _, e := range rows {
				d.rows[e.Key] = e.Text
			}
			d.generation = generation
		},
		vanish: func() {
			d.mu.Lock()
			defer d.mu.Unlock()
			d.rows, d.generation, d.token = map[string]string{}, "", ""
		},
	}
}

func TestBusyTabsLoseNothing(t *testing.T) {
	seeds := uint64(40)
	if testing.Short() {
		seeds = 6
	}
	sum := 0
	for seed := range seeds {
		count := 2 + int(seed%2)
		t.Run(fmt.Sprintf("%d tabs, seed %d", count, seed),
			func(t *testing.T) { sum += busyTabs(t, seed, count, 25, inMemory()).sum() })
	}
	t.Logf("figure: told as saved and arrived: %d", sum)
}

// rival has other tabs write just before each of the first tab's commits, the given number of times, as can happen in a
// browser without locks. It returns the count of the first tab's tries.
func rival(w *world, tabs []*tab, at string, said *told, times int) (tries *int) {
	tries = new(int)
	first := tabs[0].disk
	first.set(func(h *handle) {
		h.before = func() {
			*tries++
			if *tries <= times {
				said.act(tabs[1+*tries%(len(tabs)-1)], at, *tries%3, fmt.Sprint("rival", *tries))
			}
		}
	})
	return tries
}

func turnless(tabs []*tab) {
	for _, b := range tabs {
		b.disk.set(func(h *handle) { h.turnless = true })
	}
}

// TestTabThatLosesRacesIsStoredInTheEnd checks a browser without locks: a tab that other tabs overtake many times is
// stored in the end.
func TestTabThatLosesRacesIsStoredInTheEnd(t *testing.T) {
	for count := 2; count <= 3; count++ {
		t.Run(fmt.Sprint(count, " tabs"), func(t *testing.T) {
			w := newWorld(t)
			tabs, at := w.phoneTabs(count, inMemory())
			turnless(tabs)
			said := newTold()
			tries := rival(w, tabs, at, said, 40)
			said.act(tabs[0], at, 1, "mine")
			assert.Equal(t, map[string]int{"card/mine": 1}, map[string]int{"card/mine": said.ticks["card/mine"]})
			assert.Equal(t, 41, *tries)
			tabs[0].disk.set(func(h *handle) { h.before = nil })
			said.arrives(w, tabs, at)
		})
	}
}

// TestTabThatAlwaysLosesRacesReportsIt checks a tab that is overtaken forever: nothing is stored, the page says what to
// do, and the journal sends the action to the server.
func TestTabThatAlwaysLosesRacesReportsIt(t *testing.T) {
	w := newWorld(t)
	tabs, at := w.phoneTabs(2, inMemory())
	turnless(tabs)
	said := newTold()
	tabs[0].get(at + "/cards")
	other, tries := tabs[1].disk.really, 0
	tabs[0].disk.set(func(h *handle) {
		h.before = func() {
			tries++
			found, err := other.Read()
			require.NoError(t, err)
			require.True(t,
				commits(t, other, batch(fmt.Sprint("other", tries), found.Generation, fmt.Sprint("other", tries), "x/other")))
		}
	})
	said.act(tabs[0], at, 1, "mine")
	tabs[0].disk.set(func(h *handle) { h.before = nil })
	assert.Equal(t, 1, said.refused)
	assert.Greater(t, tries, 50)
	d := tabs[0].await("the message", func(d device.Drawing) bool {
		return d.Number == 0 && strings.Contains(d.Parts["page"], "could not be saved")
	})
	assert.Contains(t, d.Parts["page"], "Close the app’s other tabs. It is sent to the server")
	said.arrives(w, tabs, at)
	said.act(tabs[0], at, 1, "again")
	said.arrives(w, tabs, at)
}

// TestATurnKeepsOthersWaiting checks that with locks a tab is overtaken at most once: on the second try nobody else may
// write.
func TestATurnKeepsOthersWaiting(t *testing.T) {
	w := newWorld(t)
	tabs, at := w.phoneTabs(3, inMemory())
	said := newTold()
	var all gosync.WaitGroup
	most := 0
	for i, b := range tabs {
		all.Go(func() {
			for n := range 30 {
				tries := 0
				b.disk.set(func(h *handle) { h.before = func() { tries++ } })
				said.act(b, at, n%3, fmt.Sprint("t", i, "-", n))
				said.mu.Lock()
				most = max(most, tries)
				said.mu.Unlock()
			}
		})
	}
	all.Wait()
	assert.LessOrEqual(t, most, 2)
	assert.Equal(t, 90, said.sum())
	said.arrives(w, tabs, at)
}

// TestAWriteDuringALoadIsSeenWhole checks that another tab's write during a load, at any moment, is never seen in part:
// the next action sees all of it.
func TestAWriteDuringALoadIsSeenWhole(t *testing.T) {
	for after := 1; after <= 8; after++ {
		t.Run(fmt.Sprint("after read ", after), func(t *testing.T) {
			w := newWorld(t)
			one := w.phone(job.Owner, "Dora")
			one.enter("/")
			one.wire.set(offline)
			d := one.newJob("p")
			at, waiting := d.Path, d.Waiting
			reads := 0
			h := &handle{disk: one.disk.disk, left: -1}
			h.afterRead = func() {
				if reads++; reads == after {
					require.True(t, one.tick("one", at, "card/one").Stored)
				}
			}
			two := w.open(h, one.wire, &[]*tab{}) // it is not told of the other tab's writes
			d = two.tick("two", at, "card/two")
			require.True(t, d.Stored)
			want := waiting + 1
			if reads >= after {
				want++
			}
			assert.Equal(t, want, d.Waiting)
		})
	}
}

// TestAWriteBeforeLogsAreReadIsNoDamage checks that another tab's write between a load and the reading of a job's logs
// is not taken for damage and repaired.
func TestAWriteBeforeLogsAreReadIsNoDamage(t *testing.T) {
	w := newWorld(t)
	one := w.phone(job.Owner, "Dora")
	one.enter("/")
	at := one.newJob("p").Path
	one.sent()
	h, reads, tries := &handle{disk: one.disk.disk, left: -1}, 0, 0
	h.afterRead = func() {
		if reads++; reads == 1 {
			require.True(t, one.tick("one", at, "card/one").Stored)
			one.sent()
			one.wire.set(offline)
		}
	}
	h.before = func() { tries++ }
	two := w.open(h, one.wire, &[]*tab{})
	d := two.get(at + "/cards")
	assert.Equal(t, "drawn", d.Type)
	assert.Zero(t, d.Waiting)
	assert.Zero(t, tries)
}

// TestTheSamePostFromTwoTabsCountsOnce checks that a post counts once if a second tab reads it from the journal while
// the first still waits for the answer.
func TestTheSamePostFromTwoTabsCountsOnce(t *testing.T) {
	w := newWorld(t)
	tabs, at := w.phoneTabs(3, inMemory())
	said := newTold()
	for round := range 20 {
		var all gosync.WaitGroup
		for _, b := range tabs {
			all.Go(func() { said.act(b, at, 0, fmt.Sprint("both", round)) })
		}
		all.Wait()
	}
	assert.EqualValues(t, 60, said.added, "each tab must be told")
	said.added = 20
	said.arrives(w, tabs, at)
}

// TestStorageOfTheEarlierBuildStillWorks checks that a storage from the build before tokens works, and that the old
// build can open what is written now.
func TestStorageOfTheEarlierBuildStillWorks(t *testing.T) {
	w := newWorld(t)
	one := w.phone(job.Owner, "Dora")
	one.enter("/")
	one.wire.set(offline)
	at := one.newJob("p").Path
	d := one.disk.disk
	revision := func() string { return fmt.Sprint(phone.Revision([]byte(d.rows[phone.RowPhone]))) }
	d.mu.Lock()
	require.Equal(t, revision(), d.generation)
	d.rows[phone.RowPhone] = strings.Replace(d.rows[phone.RowPhone], `"rev":`+revision(), `"rev":17`, 1)
	d.generation, d.token = "17", ""
	require.Equal(t, "17", revision())
	d.mu.Unlock()
	tabs := []*tab{one.again(), one.again()}
	said := newTold()
	for i, b := range tabs {
		said.act(b, at, 1, fmt.Sprint("after", i))
	}
	d.mu.Lock()
	assert.Equal(t, revision(), d.generation, "that build expects the number of the phone's row")
	assert.NotEqual(t, "17", d.generation)
	d.mu.Unlock()
	said.arrives(w, tabs, at)
}

package view_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/view"
)

func TestStateLineWarnsOfALongWait(t *testing.T) {
	const hour, now = int64(3600 * 1000), int64(1_800_000_000_000)
	rows := []struct {
		name string
		d    view.Device
		warn bool
	}{
		{"just now", view.Device{Here: true, Waiting: 2, Ticks: 2, Oldest: now - hour}, false},
		{"for a day", view.Device{Here: true, Waiting: 2, Ticks: 2, Oldest: now - 24*hour}, false},
		{"for longer", view.Device{Here: true, Waiting: 2, Ticks: 2, Oldest: now - 25*hour}, true},
		{"since an unknown time", view.Device{Here: true, Waiting: 2, Ticks: 2}, false},
		{"nothing waits", view.Device{Here: true, Shared: now - 90*hour}, false},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			f := view.Frame{Device: row.d, Now: now}
			assert.Equal(t, row.warn, strings.Contains(view.StateLine(row.d, now), "for more than a day"))
			assert.Equal(t, row.warn, strings.Contains(tree(t, view.Phone(f, nil)).Text(), "for more than a day"))
			assert.Equal(t, row.warn, tree(t, view.State(f)).Find(`[data-tone="care"]`).Length() == 1)
		})
	}
}

func TestThePhonePageSaysHowToInstall(t *testing.T) {
	page := func(waiting int) string {
		return tree(t, view.Phone(view.Frame{Device: view.Device{Here: true, Waiting: waiting}}, nil)).Text()
	}
	for _, waiting := range []int{0, 3} {
		assert.Equal(t, waiting == 0, strings.Contains(page(waiting), "Add to Home Screen"), "first share what waits")
		assert.Contains(t, page(waiting), "Switch to the phone’s browser")
		assert.Equal(t, waiting > 0, strings.Contains(page(waiting), "First share what waits here"))
	}
}

func TestPagesMentionWorkOfANewerVersion(t *testing.T) {
	const word = "made by a newer version"
	j := job.Preview([]job.Change{job.Put("brief", "title", "Supper"), job.Put("card/load", "note", "x")})
	p := plan.Make(j)
	draw := func() string {
		return tree(t, view.Overview(view.Frame{Role: job.Owner}, j, p, nil)).Text() +
			tree(t, view.History(view.Frame{Role: job.Owner}, j, p, "")).Text()
	}
	assert.NotContains(t, draw(), word)
	j.State.Apply(job.Rec{Op: job.Op{ID: "x", Device: "d", Number: 1, Kind: "dance", Entity: "card/load"}, Effective: 1})
	assert.Equal(t, 2, strings.Count(draw(), word))
}

func TestTheHistoryShowsAWholeNote(t *testing.T) {
	long := strings.Repeat("the side door ", 20) + "end"
	j := job.Preview([]job.Change{job.Put("brief", "title", "Supper"), job.Put("card/load", "note", long)})
	assert.Contains(t, tree(t, view.History(view.Frame{Role: job.Owner}, j, plan.Make(j), "card/load")).Text(), long)
}

func TestPagesDoNotClaimThatUnsavedWorkIsKept(t *testing.T) {
	const now = int64(1_800_000_000_000)
	rows := []struct {
		name  string
		d     view.Device
		state string
		kept  bool // the offline page may say that every tick is kept
	}{
		{"all is well", view.Device{Here: true, Jobs: 1, Shared: now}, "All shared just now", true},
		{"storage refuses, a tick waits", view.Device{Here: true, Jobs: 1, Shared: now, Unkept: true, Waiting: 1, Ticks: 1},
			"Storage full. 1 tick waits for signal", false},
		{"storage refuses, nothing waits", view.Device{Here: true, Jobs: 1, Shared: now, Unkept: true},
			"Storage full. Ticks need signal", false},
		{"storage was cleared", view.Device{Here: true, Waiting: 2}, "2 changes wait on this phone", false},
		{"a form waits for the server", view.Device{Here: true, Jobs: 1, Shared: now, Unposted: 1},
			"1 change waits on this phone", true},
		{"a form and a tick", view.Device{Here: true, Jobs: 1, Shared: now, Unposted: 1, Waiting: 1, Ticks: 1},
			"2 changes wait on this phone", true},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			f := view.Frame{Device: row.d, Now: now}
			assert.Equal(t, row.state, view.StateLine(row.d, now))
			assert.Equal(t, row.kept, strings.Contains(tree(t, view.Offline(f)).Text(), "every tick is kept"))
		})
	}
}

// TestAPageBringsTheStateLinesOfItsScript checks that a page contains the state lines that its script shows where the
// phone's core does not run.
func TestAPageBringsTheStateLinesOfItsScript(t *testing.T) {
	page := tree(t, view.Document(view.Frame{}, view.Heading("", "Cards")))
	for id, says := range map[string]string{"waits": "Saved here, waiting for signal", "stay": "Stay on this page",
		"link": "Open your link again, or a new one", "unkept": "Ticks need signal"} {
		line, err := page.Find("template#state-" + id).Html()
		assert.NoError(t, err)
		assert.Contains(t, line, says)
	}
}

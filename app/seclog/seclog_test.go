package seclog_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/seclog"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	start  = int64(1_800_000_000_000)
	minute = int64(60_000)
)

type bench struct {
	*seclog.Log
	dir    string
	now    int64
	logged []seclog.Event
}

func open(t *testing.T, dir string) *bench {
	b := &bench{dir: dir, now: start}
	b.Log = seclog.Open(dir, func() int64 { return b.now }, func(e seclog.Event) { b.logged = append(b.logged, e) })
	return b
}

func (b *bench) all(t *testing.T) []seclog.Event {
	t.Helper()
	events, more := b.Read(func(seclog.Event) bool { return true }, 0, 1<<20)
	require.False(t, more)
	return events
}

func (b *bench) lines(t *testing.T) int {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(b.dir, "security.ndjson"))
	require.NoError(t, err)
	return strings.Count(string(data), "\n")
}

func TestEventsAreKeptNewestFirst(t *testing.T) {
	b := open(t, t.TempDir())
	for n := range 25 {
		b.now += minute
		b.Add(seclog.Event{What: seclog.Joined, DeviceName: fmt.Sprint("phone ", n)})
	}
	info, err := os.Stat(filepath.Join(b.dir, "security.ndjson"))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	again := open(t, b.dir) // after a restart
	page, more := again.Read(func(e seclog.Event) bool { return e.What == seclog.Joined }, 10, 10)
	assert.True(t, more)
	require.Len(t, page, 10)
	assert.Equal(t, "phone 14", page[0].DeviceName)
	assert.Equal(t, start+15*minute, page[0].At)
	assert.Len(t, b.logged, 25, "the server's own log gets each")
	none, more := again.Read(func(e seclog.Event) bool { return e.What == seclog.Refused }, 0, 10)
	assert.False(t, more)
	assert.Empty(t, none)
}

func TestRefusalsOfOneSortAreCountedTogether(t *testing.T) {
	b := open(t, t.TempDir())
	refused := seclog.Event{What: seclog.Refused, Why: seclog.NoSuchLink, From: "192.0.2.7"}
	for range 5000 {
		b.now += 10
		b.Add(refused)
	}
	assert.Equal(t, 1, b.lines(t))
	events := b.all(t)
	require.Len(t, events, 2)
	assert.Equal(t, 4999, events[0].Times, "current counts are included")
	b.now += 11 * minute
	b.Add(seclog.Event{What: seclog.Joined})
	assert.Equal(t, 3, b.lines(t))
	events = b.all(t)
	require.Len(t, events, 3)
	assert.Equal(t, 4999, events[1].Times)
	assert.Equal(t, start+50_000, events[1].Until)
	assert.Zero(t, events[2].Times, "the first is written at once")
	b.Add(refused)
	b.now += minute
	b.Add(refused)
	b.Flush()
	events = b.all(t)
	assert.Zero(t, events[0].Times, "two give two lines")
	assert.Equal(t, b.now, events[0].At)
}

// A flood from many addresses neither fills the disk nor pushes out other events.
func TestFloodFromManyAddresses(t *testing.T) {
	b := open(t, t.TempDir())
	b.Add(seclog.Event{What: seclog.LinkEnded, LinkName: "Bea"})
	const days = 3
	for n := range days * 24 * 360 { // one every ten seconds, each from a new address
		b.now += 10_000
		b.Add(seclog.Event{What: seclog.Refused, Why: seclog.TooMany, From: fmt.Sprintf("2001:db8::%x", n)})
	}
	b.Flush()
	total := 0
	for _, e := range b.all(t) {
		total += max(1, e.Times)
	}
	assert.Equal(t, days*24*360+1, total, "each is counted")
	assert.Less(t, len(b.logged), days*24*(60+2*6)+10)
	assert.Equal(t, seclog.LinkEnded, b.all(t)[len(b.all(t))-1].What, "and the first is still there")
}

func TestFilesAreBounded(t *testing.T) {
	b := open(t, t.TempDir())
	long := strings.Repeat("n", 500)
	for n := range 9000 {
		require.NoError(t, seclog.Append(b.dir, seclog.Event{At: start + int64(n), What: seclog.Refused,
			Why: seclog.Forbidden, LinkName: long, DeviceName: long, Job: long, Link: long, Device: long, By: long}))
	}
	files, err := filepath.Glob(filepath.Join(b.dir, "*"))
	require.NoError(t, err)
	assert.Len(t, files, 5)
	room := int64(0)
	for _, f := range files {
		info, err := os.Stat(f)
		require.NoError(t, err)
		room += info.Size()
	}
	assert.Less(t, room, int64(5<<20+10_000))
	assert.Equal(t, start+8999, b.all(t)[0].At, "the newest are kept")
}

func TestEventsWaitForTheDisk(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "notyet")
	b := open(t, dir)
	for n := range 700 {
		b.Add(seclog.Event{What: seclog.Joined, N: n})
	}
	assert.Equal(t, 500, b.Unkept(), "only the newest wait")
	assert.Len(t, b.all(t), 500, "they are included")
	require.NoError(t, os.Mkdir(dir, 0o700))
	require.NoError(
		t,
		os.WriteFile(filepath.Join(dir, "security.ndjson"), []byte(`{"at":1,"what":"joi`), 0o600),
	) // cut off
	b.Add(seclog.Event{What: seclog.Joined, N: 700})
	assert.Zero(t, b.Unkept())
	events := open(t, dir).all(t)
	require.Len(t, events, 501, "the truncated line damages none")
	assert.Equal(t, 700, events[0].N)
}

func TestControlCharactersAreRemoved(t *testing.T) {
	b := open(t, t.TempDir())
	b.Add(seclog.Event{What: seclog.Joined, DeviceName: "Bea\x1b[2J\u202e\n\"}", LinkName: strings.Repeat("🎈", 300)})
	e := b.all(t)[0]
	assert.Equal(t, `Bea[2J"}`, e.DeviceName)
	assert.Equal(t, 80, len([]rune(e.LinkName)))
	assert.Equal(t, e.DeviceName, b.logged[0].DeviceName, "the same in the server's own log")
	assert.Equal(t, 1, b.lines(t))
}

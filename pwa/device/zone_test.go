package device_test

import (
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// zoneOf simulates a phone in New York that also knows Lisbon, with the European rule of 2027: clocks go forward on 28
// March at 01:00 UTC (Directive 2000/84/EC, article 2).
func zoneOf(zone string, ms int64) (int, bool) {
	switch zone {
	case "", "America/New_York":
		return -240, true
	case "Europe/Lisbon":
		if ms >= time.Date(2027, 3, 28, 1, 0, 0, 0, time.UTC).UnixMilli() {
			return 60, true
		}
		return 0, true
	}
	return 0, false
}

func TestOffsetMinutes(t *testing.T) {
	for written, want := range map[string]int{"GMT": 0, "UTC": 0, "GMT+1": 60, "GMT+01:00": 60, "GMT-03:30": -210,
		"GMT+05:45": 345, "GMT\u221202:00": -120, "GMT-00:36:45": -36, "GMT+14:00": 840} {
		got, ok := device.OffsetMinutes(written)
		assert.True(t, ok, written)
		assert.Equal(t, want, got, written)
	}
	for _, written := range []string{"", "CET", "GMT+", "GMT+x", "GMT+1:60", "GMT+1:2:3:4", "GMT01:00", "GMT+99",
		"+01:00", "GMT+-1"} {
		_, ok := device.OffsetMinutes(written)
		assert.False(t, ok, written)
	}
}

// TestTimesAreInTheJobsZone checks that times are in the job's zone on a phone in another zone, before and after a
// clock change.
func TestTimesAreInTheJobsZone(t *testing.T) {
	w := newWorld(t)
	w.clock.Store(time.Date(2027, 3, 27, 12, 30, 0, 0, time.UTC).UnixMilli())
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.sent()
	b.wire.set(offline)
	require.True(t, b.post("z", at+"/brief", "title", "Reading room reopening", "zone", "Europe/Lisbon").Stored)
	require.True(t, b.tick("t1", at, "card/one").Stored)
	w.clock.Store(time.Date(2027, 3, 28, 12, 30, 0, 0, time.UTC).UnixMilli())
	require.True(t, b.tick("t2", at, "card/two").Stored)
	b.wire.set(online)
	b.say("wake")
	b.sent()
	w.clock.Store(time.Date(2027, 4, 2, 12, 0, 0, 0, time.UTC).UnixMilli())
	history := b.get(at + "/history").Parts["page"]
	assert.Contains(t, history, "Sat 27 Mar, 12:30", "winter time in Lisbon")
	assert.Contains(t, history, "Sun 28 Mar, 13:30", "summer time in Lisbon")
	assert.NotContains(t, history, "08:30", "the phone's zone must not be used")

	refused := b.post("y", at+"/brief", "title", "Reading room reopening", "zone", "Atlantis/Harbour")
	assert.True(t, refused.Refused)
	assert.Contains(t, refused.Parts["page"], "Europe/Lisbon, or leave it empty")
	assert.Contains(t, refused.Parts["page"], "Atlantis/Harbour", "the typed text must stay")
}

// TestOffsetMinutesReadsWhatBrowsersWrite runs the worker's script in Node and reads its offsets.
func TestOffsetMinutesReadsWhatBrowsersWrite(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("needs node on the path; install Node.js and run go test ./pwa/device")
	}
	worker, err := os.ReadFile("../../static/js/worker.js")
	require.NoError(t, err)
	_, from, found := strings.Cut(string(worker), "const zones")
	require.True(t, found)
	function, _, found := strings.Cut(from, "// request")
	require.True(t, found)
	script := "const zones" + function + `
for (const [zone, at] of [['Europe/Lisbon', '2027-03-27T12:00Z'], ['Europe/Lisbon', '2027-03-28T12:00Z'],
  ['Asia/Kathmandu', '2027-01-01T00:00Z'],
  ['America/St_Johns', '2027-01-01T00:00Z'], ['Atlantis/Harbour', '2027-01-01T00:00Z']])
  console.log(offset(zone, Date.parse(at)));`
	out, err := exec.Command(node, "-e", script).Output()
	require.NoError(t, err)
	var minutes []int
	lines := strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
	for _, line := range lines[:4] {
		got, ok := device.OffsetMinutes(line)
		require.True(t, ok, line)
		minutes = append(minutes, got)
	}
	assert.Equal(t, []int{0, 60, 345, -210}, minutes)
	assert.Equal(t, "", lines[4])
}

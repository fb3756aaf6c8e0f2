package device_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readsIn returns an owner's phone with the reading room. Its work pauses as often as possible.
func readsIn(t *testing.T) (b *tab, at string) {
	t.Helper()
	b = newWorld(t).phone(job.Owner, "Dora")
	b.enter("/")
	text, err := os.ReadFile("../../testdata/jobs/reading-room.json")
	require.NoError(t, err)
	at = b.post("p", "/import", "text", string(text)).Path
	b.sent()
	b.get("/calc") // drops what the job's page wanted
	b.slow.Store(true)
	b.passTime(true)
	return b, at
}

// looks opens the clock with its fixes and waits until they are being computed.
func (b *tab) looks(at string) (goOn func()) {
	b.t.Helper()
	d := b.get(at + "/clock?help=1")
	assert.Contains(b.t, d.Parts["page"], "Looking for what would help…")
	assert.NotContains(b.t, d.Parts["page"], `id="fixes"`)
	for !strings.Contains(d.Parts["page"], "Odds by then") { // the forecast comes first
		goOn = b.working(20)
		for len(b.drawings) > 0 {
			d = <-b.drawings
		}
		goOn()
	}
	return b.working(betterOdds)
}

// betterOdds is more slices than the better odds take, which come after the first ones and before the fixes.
const betterOdds = 3000

// answer waits until nothing more is being computed for the page at that address.
func (b *tab) answer(path string) string {
	b.t.Helper()
	return b.await("the answer", func(d device.Drawing) bool {
		page := d.Parts["page"]
		return d.Path == path && page != "" && !strings.Contains(page, "…")
	}).Parts["page"]
}

// TestTapsAreAnsweredWhileFixesAreComputed checks that a tap is answered between two slices, that the computation then
// continues, and that the fixes are the same as without a tap.
func TestTapsAreAnsweredWhileFixesAreComputed(t *testing.T) {
	quiet, at := readsIn(t)
	quiet.looks(at)()
	want := quiet.answer(at + "/clock?help=1")
	require.Contains(t, want, `id="fixes"`)
	require.Contains(t, want, `id="cutline"`)
	whole := quiet.slices.Load()

	b, at2 := readsIn(t)
	require.Equal(t, at, at2)
	goOn := b.looks(at)
	for range 20 {
		b.number++
		n, asked := b.number, b.slices.Load()
		b.inbox <- device.Message{Type: "get", Number: n, Path: at + "/clock?help=1"}
		goOn()
		b.await("a tap's answer", func(d device.Drawing) bool { return d.Number == n })
		assert.Less(t, b.slices.Load()-asked, whole/2, "the tap must be answered in between")
		goOn = b.working(5)
	}
	goOn()
	assert.True(t, want == b.answer(at+"/clock?help=1"), "the same as without a tap")
	assert.Less(t, b.slices.Load(), whole*3/2, "the computation must have continued")
}

// TestATickEndsWorkThatItSupersedes checks that a tick during the computation is stored and ends it, and that the fixes
// are then those of the changed job.
func TestATickEndsWorkThatItSupersedes(t *testing.T) {
	ticked := func(b *tab, at string) string {
		require.True(t, b.tick("t", at, "card/shop").Stored)
		b.get(at + "/clock?help=1")
		return b.answer(at + "/clock?help=1")
	}
	alone, at := readsIn(t)
	alone.looks(at)()
	alone.get("/calc") // nothing is wanted here
	still := alone.slices.Load()
	alone.get("/calc")
	assert.Equal(t, still, alone.slices.Load(), "work that no page needs must not run")
	want := ticked(alone, at)
	assert.NotContains(t, want, "cards/shop")

	b, at2 := readsIn(t)
	require.Equal(t, at, at2)
	b.looks(at)()
	assert.True(t, want == ticked(b, at), "it must be the same as after abandoned work")
	assert.Contains(t, b.get(at + "/cards/shop").Parts["page"], `value="untick"`)
}

// TestNothingIsLostBetweenSlices checks that counts that arrive between slices are all kept.
func TestNothingIsLostBetweenSlices(t *testing.T) {
	b, at := readsIn(t)
	page := b.get(at + "/cards").Parts["page"]
	_, rest, found := strings.Cut(page, `href="`+at+`/cards/make/`)
	require.True(t, found)
	piece, _, _ := strings.Cut(rest, `"`)
	card := at + "/cards/make/" + piece
	require.Equal(t, "drawn", b.get(card).Type)
	for i := range 12 {
		require.True(t,
			b.post(fmt.Sprint("n", i), at+"/do", "act", "add", "e", "card/make/"+piece, "n", "1", "back", card).Stored)
		b.working(5)()
	}
	again := b.again()
	assert.Contains(t, again.enter(card).Parts["page"], "<b>12</b>")
}

// TestWorkEndsWithThePhone closes a phone in the middle of its work. The world's clean-up waits for it to end.
func TestWorkEndsWithThePhone(t *testing.T) {
	b, at := readsIn(t)
	b.looks(at)()
}

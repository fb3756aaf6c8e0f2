package page_test

import (
	"strconv"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAHelperTalliesByKind checks that a helper counts clusters at the drawing of their kind, and that the card says
// how many of each there are.
func TestAHelperTalliesByKind(t *testing.T) {
	w := newWorld(t)
	w.load("room", "reading-room.json")
	const card, at = "card/make/door", "/jobs/room/cards/make/door"
	h := w.visitor(job.Helper, "Ines").visit(at)
	j, _ := w.read("room")
	p := plan.Make(j)
	kinds := p.Pieces[0].Laid.Kinds
	rows := h.doc.Find(".kinds li")
	require.Equal(t, len(kinds), rows.Length())
	second := &kinds[1]
	title := func(kind int) string { return strings.TrimSpace(h.doc.Find(".kinds li .rowtitle").Eq(kind).Text()) }
	n := number(second.Clusters)
	assert.Equal(t, n+" x B", title(1))
	assert.Equal(t, "+1 B", h.doc.Find(".kinds li").Eq(1).Find("button").AttrOr("aria-label", ""))
	plus, minus := `.kinds form:has([aria-label="+1 B"])`, `.kinds form:has([aria-label="−1 B"])`
	for range 2 {
		h.submit(plus, nil)
	}
	assert.Equal(t, "2 of "+n+" B", title(1))
	assert.Equal(t, 2, readMade(w, card))
	h.submit(minus, nil)
	assert.Equal(t, "1 of "+n+" B", title(1))
	assert.Contains(t, h.doc.Find(".tallylast").Text(), "Ines −1")
	h.post("/jobs/room/do", form.Values{"act": {"add"}, "e": {card}, "n": {"3"}})
	assert.Contains(t, h.visit(at).text(), "3 more without a kind.")
	for range second.Clusters - 1 {
		h.submit(plus, nil)
	}
	assert.Equal(t, "All "+n+" B", title(1))
	assert.Zero(t, h.doc.Find(plus).Length())
	h.post("/jobs/room/do", form.Values{"act": {"count"}, "e": {card}, "n": {number(p.Pieces[0].Clusters)}})
	h.visit(at)
	assert.Equal(t, "All "+number(kinds[0].Clusters)+" A", title(0), "a full card has all of each kind")
	h.post("/jobs/room/do", form.Values{"act": {"add"}, "e": {card}, "n": {"-1"}, "text": {"no kind at all"}})
	assert.Equal(t, p.Pieces[0].Clusters-1, readMade(w, card), "what is no key is counted without a kind")
}

// readMade returns how many of a card are made in the job "room".
func readMade(w *world, card string) int {
	j, _ := w.read("room")
	return j.Made(card)
}

func number(n int) string { return strconv.Itoa(n) }

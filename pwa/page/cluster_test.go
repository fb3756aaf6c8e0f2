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

// doorAt is the card that makes the sample's door garland of 26 clusters.
const doorAt = "/jobs/room/cards/make/door"

// TestAClusterSaysWhatItIs checks the words of one cluster of a card's picture, and that it is marked in the picture.
func TestAClusterSaysWhatItIs(t *testing.T) {
	w := newWorld(t)
	w.load("room", "reading-room.json")
	h := w.visitor(job.Helper, "Ines").visit(doorAt)
	assert.Zero(t, h.doc.Find(".rim").Length())
	h.submit("#cluster-form", form.Values{"cluster": {"14"}})
	j, _ := w.read("room")
	p := plan.Make(j)
	c := &p.Pieces[0]
	k := c.Laid.Kinds[c.Laid.Sequence[13]]
	said := h.doc.Find("#cluster-form [role=status]").Text()
	assert.Contains(t, said, "Cluster 14 of 26: kind "+k.Name)
	assert.Contains(t, said, k.Words()+".")
	require.Len(t, c.Sections, 3)
	assert.Contains(t, said, "Section 2, 5th from its start. Not made yet.")
	assert.Equal(t, 2*k.Recipe.Duplets(), h.doc.Find(".rim circle").Length(), "all of its balloons have a rim")
	taps := h.doc.Find(".front [data-cluster]")
	assert.Greater(t, taps.Length(), 100)
	assert.Equal(t, "cluster-form", h.doc.Find(".front").AttrOr("data-clusters", ""))
	assert.Equal(t, doorAt+"?cluster=15#cluster-next", h.doc.Find("#cluster-next").AttrOr("href", ""),
		"the next step is under the same finger, without scripts too")
	for _, row := range []struct{ typed, wrong string }{{"0", "from 1 to 26"}, {"27", "from 1 to 26"},
		{"a few", "whole number"}, {"9999999999999999", "from 1 to 26"}, {"-3", "from 1 to 26"}} {
		h.visit(doorAt).submit("#cluster-form", form.Values{"cluster": {row.typed}})
		assert.Contains(t, h.doc.Find("#cluster-number-error").Text(), row.wrong, row.typed)
		assert.Zero(t, h.doc.Find(".rim").Length())
	}
	for _, page := range []string{"/jobs/room", "/jobs/room/pieces"} {
		assert.Zero(t, h.visit(page).doc.Find("[data-cluster]").Length(), "bytes: %s", page)
	}
	h.visit("/jobs/room/pieces/door?cluster=3")
	assert.Contains(t, h.doc.Find("#cluster").Text(), "Cluster 3 of 26")
	assert.Zero(t, h.doc.Find("#cluster form:has([value=add])").Length(), "read only")
}

// TestMarkUpToHere checks that all clusters up to the one shown count as made, whatever was counted by kind before.
func TestMarkUpToHere(t *testing.T) {
	w := newWorld(t)
	w.load("room", "reading-room.json")
	const card = "card/make/door"
	upTo := func(v *visitor, n int) {
		v.visit(doorAt+"?cluster="+number(n)).submit("#cluster form:has([value=add])", nil)
	}
	rosa, sam := w.visitor(job.Helper, "Rosa"), w.visitor(job.Helper, "Sam")
	upTo(rosa, 5)
	assert.Equal(t, 5, readMade(w, card))
	assert.Contains(t, rosa.text(), "Made by Rosa.", "the page still shows the cluster")
	assert.Zero(t, rosa.doc.Find("#cluster form:has([value=add])").Length(), "it is marked")
	upTo(sam, 8)
	for n, who := range map[int]string{1: "Rosa", 5: "Rosa", 6: "Sam", 8: "Sam"} {
		assert.Contains(t, sam.visit(doorAt+"?cluster="+number(n)).text(), "Made by "+who+".", n)
	}
	assert.Contains(t, sam.visit(doorAt+"?cluster=9").text(), "Not made yet.")
	assert.Contains(t, sam.visit(doorAt+"?cluster=2").text(), "Only up to here")
	upTo(sam, 2)
	assert.Equal(t, 2, readMade(w, card))
	j, _ := w.read("room")
	p := plan.Make(j)
	laid := &p.Pieces[0].Laid
	last := laid.Sequence[len(laid.Sequence)-1]
	sam.post("/jobs/room/do", form.Values{"act": {"add"}, "e": {card}, "n": {strconv.Itoa(laid.Kinds[last].Clusters)},
		"text": {laid.Kinds[last].Key()}})
	assert.Contains(t, sam.visit(doorAt+"?cluster=26").text(), "Made by Sam.", "all of its kind are made")
	upTo(rosa, 10)
	j, _ = w.read("room")
	p = plan.Make(j)
	made := p.Made(&p.Pieces[0], 0)
	for i, filled := range made.Filled {
		assert.Equal(t, i < 10 || laid.Sequence[i] == last, filled, "cluster %d", i+1)
	}
	sam.post("/jobs/room/do", form.Values{"act": {"add"}, "e": {card}, "n": {"2"}})
	rosa.post("/jobs/room/do", form.Values{"act": {"count"}, "e": {card}, "n": {"20"}})
	assert.Contains(t, rosa.visit(doorAt+"?cluster=1").doc.Find("#cluster").Text(), "Made by Rosa or Sam.",
		"a count by eye leaves it open")
}

// TestMarkUpToASection checks that a fixing card counts sections.
func TestMarkUpToASection(t *testing.T) {
	w := newWorld(t)
	w.load("room", "reading-room.json")
	h := w.visitor(job.Helper, "Ines").visit("/jobs/room/cards/fix/door?cluster=14")
	h.submit("#cluster form:has([value=add])", nil)
	assert.Equal(t, 2, readMade(w, "card/fix/door"), "cluster 14 is in the second of three sections")
}

// TestKindsArePickedByHand checks that a decorator picks kinds on the page of the piece, that the counts follow and
// that one tap takes it back.
func TestKindsArePickedByHand(t *testing.T) {
	w := newWorld(t)
	w.load("room", "reading-room.json")
	const at = "/jobs/room/pieces/door"
	v := w.visitor(job.Owner, "")
	assert.Zero(t, v.visit(at+"?cluster=3").doc.Find("#hand-form").Length(), "its pattern is another")
	v.submit("#edit-piece", form.Values{"pattern": {job.ByHand}})
	v.visit(at + "?cluster=3")
	counted := func() (*plan.Plan, map[string]int) {
		j, _ := w.read("room")
		p, n := plan.Make(j), map[string]int{}
		for _, b := range p.Pieces[0].By {
			n[strconv.Itoa(b.SizeIn)+b.Colour.ID] += b.Count
		}
		return &p, n
	}
	p, before := counted()
	ink := "11/ink/4+18/ink/2"
	require.NotEmpty(t, v.doc.Find(`#hand-form button[value="`+ink+`"]`).Text())
	pick := func(cluster, kind, reach string) {
		v.visit(at + "?cluster=" + cluster)
		v.post(at, form.Values{"act": {"hand"}, "cluster": {cluster}, "pick": {kind}, "reach": {reach}})
	}
	pick("3", ink, "")
	assert.Contains(t, flashOf(v), "Picked 4 Ink blue 11-inch; 2 Ink blue 18-inch.")
	assert.Contains(t, v.doc.Find("#cluster").Text(), "Cluster 3 of 26")
	was := p.Pieces[0].Laid.Kinds[p.Pieces[0].Laid.Sequence[2]]
	_, after := counted()
	for _, b := range was.By {
		before[strconv.Itoa(b.SizeIn)+b.Colour.ID] -= b.Count
	}
	before["11ink"] += 4
	before["18ink"] += 2
	assert.Equal(t, before, after)
	v.submit("#flash form", nil)
	_, undone := counted()
	assert.NotEqual(t, after, undone, "undone")
	pick("1", ink, "2")
	p, _ = counted()
	for i, kind := range p.Pieces[0].Laid.Sequence {
		assert.Equal(t, i%2 == 0, p.Pieces[0].Laid.Kinds[kind].Key() == ink, "every second: cluster %d", i+1)
	}
	pick("2", ink, "")
	pick("1", "", "run")
	j, _ := w.read("room")
	piece, _ := j.Piece("door")
	assert.True(t, strings.HasPrefix(piece.Hand, ink+"|4x0 1 0 1"), "the first three are as scattered: %s", piece.Hand)
	for _, wrong := range []form.Values{{"cluster": {"0"}, "pick": {ink}}, {"cluster": {"27"}, "pick": {ink}},
		{"cluster": {"1"}, "pick": {"11/none/6"}}, {"cluster": {"x"}, "pick": {ink}}} {
		wrong["act"] = []string{"hand"}
		v.visit(at).post(at, wrong)
		j, _ = w.read("room")
		again, _ := j.Piece("door")
		assert.Equal(t, piece.Hand, again.Hand)
	}
	h := w.visitor(job.Helper, "Ines").visit(at + "?cluster=3")
	assert.Zero(t, h.doc.Find("#hand-form").Length(), "a helper picks nothing")
	assert.Equal(t, 403, h.post(at, form.Values{"act": {"hand"}, "cluster": {"1"}, "pick": {ink}}).reply.Status)
}

package look_test

import (
	"maps"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawBase draws a piece whose base is made of clusters; colour c comes in no 18-inch.
func drawBase(t *rapid.T) map[string]any {
	return map[string]any{"name": "It",
		"kind":      rapid.SampledFrom([]string{"garland", "hoop", "column", "wall"}).Draw(t, "kind"),
		"length_mm": rapid.IntRange(400, 6000).Draw(t, "length"), "width_mm": rapid.IntRange(900, 3000).Draw(t, "width"),
		"height_mm": rapid.IntRange(500, 3000).Draw(t, "height"), "diameter_mm": 1500,
		"count": rapid.IntRange(1, 4).Draw(t, "count"), "accents": rapid.IntRange(0, 5).Draw(t, "accents"),
		"recipe": rapid.SampledFrom([]string{"2x11@10", "2x11@10 + 1x18@16", "1x11@10 + 1x11@9"}).Draw(t, "recipe"),
		"colours": []job.Share{{Colour: "a", Weight: 3}, {Colour: "b", Weight: float64(rapid.IntRange(0, 3).Draw(t, "b"))},
			{Colour: "c", Weight: float64(rapid.IntRange(0, 3).Draw(t, "c"))}},
	}
}

// planOf returns the plan of a piece with the fields.
func planOf(fields map[string]any) (plan.Plan, *count.PieceCount) {
	var changes []job.Change
	for name, value := range fields {
		changes = append(changes, job.Put("piece/it", name, value))
	}
	for id, sizes := range map[string][]int{"a": {5, 11, 18}, "b": {5, 11, 18}, "c": {5, 11}} {
		changes = append(changes, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "sizes", sizes))
	}
	p := plan.Design(job.Preview(changes))
	return p, &p.Pieces[0]
}

// drawHand draws what is picked of the choices for some clusters.
func drawHand(t *rapid.T, l *count.Laid) []string {
	keys := make([]string, len(l.Sequence))
	for i := range keys {
		if kind := rapid.IntRange(-1, len(l.Choices)-1).Draw(t, "picked"); kind >= 0 {
			keys[i] = l.Choices[kind].Key()
		}
	}
	return keys
}

// By hand, every cluster that somebody picked a kind for is of that kind, the counts are the sum over the clusters, and
// the picture has exactly these balloons, also with substitutes and over several strands.
func TestByHandTheCountsFollowTheClusters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fields := drawBase(t)
		fields["pattern"] = job.ByHand
		_, first := planOf(fields)
		keys := drawHand(t, &first.Laid)
		fields["hand"] = count.FormatHand(keys)
		p, c := planOf(fields)
		assert.Len(t, c.Laid.Sequence, c.Clusters)
		for i, kind := range c.Laid.Sequence {
			if keys[i] != "" {
				assert.Equal(t, keys[i], c.Laid.Kinds[kind].Key(), "cluster %d", i+1)
			} else {
				was := first.Laid.Kinds[first.Laid.Sequence[i]]
				assert.Equal(t, was.Key(), c.Laid.Kinds[kind].Key(), "cluster %d", i+1)
			}
			of := map[int]int{}
			for _, sort := range c.Laid.Deals[i] {
				of[sort]++
			}
			for sort, n := range of {
				want := c.Laid.Sorts[sort]
				want.Count = n
				assert.Contains(t, c.Laid.Kinds[kind].By, want, "what is dealt is the kind")
			}
		}
		adds(t, c)
		duplets := 0
		for i := range c.Laid.Kinds {
			duplets += c.Laid.Kinds[i].Recipe.Duplets() * c.Laid.Kinds[i].Clusters
		}
		for i := range c.AccentsLaid.Kinds {
			duplets += c.AccentsLaid.Kinds[i].Recipe.Duplets() * c.AccentsLaid.Kinds[i].Clusters
		}
		assert.Equal(t, duplets, c.Duplets)
		need := 0
		for _, line := range p.Balloons {
			need += line.Need
		}
		assert.Equal(t, c.Balloons, need, "the shop list has them all")
		if l := p.Look(c, 0); assert.NotNil(t, l) {
			sound(t, c, l)
		}
	})
}

// Without a pick a piece by hand is the scattered one, and a piece that is scattered again is as before, whatever was
// picked.
func TestByHandBeginsScattered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		fields := drawBase(t)
		before, was := planOf(fields)
		fields["pattern"] = job.ByHand
		byHand, c := planOf(fields)
		assert.Equal(t, before.Balloons, fieldless(byHand.Balloons))
		assert.Equal(t, was.Laid.Sequence, c.Laid.Sequence)
		assert.Equal(t, was.Laid.Kinds, c.Laid.Kinds)
		assert.Equal(t, before.Look(was, 0), byHand.Look(c, 0))
		hand := count.FormatHand(drawHand(t, &c.Laid))
		fields["hand"], fields["pattern"] = hand, "scattered"
		after, again := planOf(fields)
		assert.Equal(t, was.Laid, again.Laid)
		assert.Equal(t, was.By, again.By)
		assert.Equal(t, before.Cards, after.Cards)
	})
}

// fieldless takes the pattern out of what the lines say of their piece.
func fieldless(lines []count.BalloonLine) []count.BalloonLine {
	for i := range lines {
		for k := range lines[i].Pieces {
			lines[i].Pieces[k].Piece.Pattern = "scattered"
		}
	}
	return lines
}

// Whatever stands in the field, the piece is counted, and what cannot be read picks nothing.
func TestByHandTakesJunk(t *testing.T) {
	fields := map[string]any{"name": "It", "kind": "garland", "length_mm": 3000, "recipe": "2x11@10", "accents": 0,
		"pattern": job.ByHand, "colours": []job.Share{{Colour: "a", Weight: 1}, {Colour: "b", Weight: 1}}}
	_, scattered := planOf(fields)
	for _, junk := range []string{"|", "||||", "11/a/4|", "|3x1", "11/a/4|99999999999999999999x1", "11/a/4|-3x1",
		"11/a/4|3x-1", "11/a/4|3x9", "11/z/4|9x1", "a b c|xx1", strings.Repeat("|x", 9000), "11/a/4|0x1", "\x00é|1"} {
		with := maps.Clone(fields)
		with["hand"] = junk
		p, c := planOf(with)
		assert.Equal(t, scattered.Laid.Sequence, c.Laid.Sequence, junk)
		require.NotNil(t, p.Look(c, 0), junk)
	}
	rapid.Check(t, func(t *rapid.T) {
		with := maps.Clone(fields)
		with["hand"] = rapid.StringMatching(`[ 0-9ab/x|+-]{0,40}`).Draw(t, "junk")
		p, c := planOf(with)
		adds(t, c)
		sound(t, c, p.Look(c, 0))
	})
	with := maps.Clone(fields)
	with["hand"] = "11/a/4|999999999x1"
	_, c := planOf(with)
	assert.Len(t, c.Laid.Kinds, 1, "more picks than clusters are for all of them")
}

// What is written is read again, whatever is picked.
func TestPicksAreReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		keys := rapid.SliceOfN(rapid.SampledFrom([]string{"", "", "11/a/4", "11/b/4", "11/a/2+11/b/2"}), 0, 60).
			Draw(t, "keys")
		text := count.FormatHand(keys)
		assert.Equal(t, keys, count.ParseHand(text, len(keys)))
		shorter := rapid.IntRange(0, len(keys)).Draw(t, "shorter")
		assert.Equal(t, keys[:shorter], count.ParseHand(text, shorter))
	})
	assert.Equal(t, "11/a/6 11/b/6|3x1 2x0 2", count.FormatHand([]string{"11/a/6", "11/a/6", "11/a/6", "", "", "11/b/6",
		"", ""}))
}

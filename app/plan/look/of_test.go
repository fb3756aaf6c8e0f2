package look_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sampleJobs reads every sample job.
func sampleJobs(t testing.TB) map[string]job.Job {
	t.Helper()
	files, err := filepath.Glob("../../../testdata/jobs/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	jobs := map[string]job.Job{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		changes, err := job.DecodeFile(text)
		require.NoError(t, err, file)
		jobs[strings.TrimSuffix(filepath.Base(file), ".json")] = job.Preview(changes)
	}
	return jobs
}

// sort is what balloons of a picture are counted by.
type sort struct {
	sizeIn         int
	colour, finish string
}

// sizedTo reports whether the plan has a balloon of that size that is inflated so.
func sizedTo(c *count.PieceCount, b look.Balloon) bool {
	for _, have := range c.By {
		if have.SizeIn == b.SizeIn && math.Abs(have.ToIn*25.4/2-b.RadiusMM) < 1e-9 {
			return true
		}
	}
	return false
}

func counted(c *count.PieceCount) map[sort]int {
	n := map[sort]int{}
	for _, b := range c.By {
		n[sort{b.SizeIn, b.Colour.ID, b.Colour.Finish}] += b.Count
	}
	return n
}

func drawn(l *look.Look) map[sort]int {
	n := map[sort]int{}
	for _, b := range l.Balloons {
		c := l.Colours[b.Colour]
		n[sort{b.SizeIn, c.ID, c.Finish}]++
	}
	return n
}

// asserting is a *testing.T or a *rapid.T.
type asserting interface {
	assert.TestingT
	Helper()
}

// sound checks what holds for every picture: exactly the balloons of the plan, of sizes they can have, on the floor.
func sound(t asserting, c *count.PieceCount, l *look.Look) {
	t.Helper()
	assert.Equal(t, counted(c), drawn(l), c.Piece.Name)
	for _, b := range l.Balloons {
		for _, mm := range []float64{b.XMM, b.YMM, b.DepthMM, b.RadiusMM} {
			assert.False(t, math.IsNaN(mm) || math.IsInf(mm, 0), c.Piece.Name)
		}
		assert.True(t, sizedTo(c, b), "%s: %+v", c.Piece.Name, b)
		if l.Stands {
			assert.GreaterOrEqual(t, b.YMM-b.RadiusMM, -1.0, "%s: nothing is below the floor", c.Piece.Name)
		}
	}
}

// The picture is the count: of every piece of every sample job it has exactly the balloons of the plan.
func TestALookHasTheBalloonsOfThePlan(t *testing.T) {
	pieces := 0
	for name, j := range sampleJobs(t) {
		p := plan.Design(j)
		for i := range p.Pieces {
			c := &p.Pieces[i]
			l := p.Look(c, 0)
			if c.Balloons == 0 || c.Balloons > look.MostDrawn {
				assert.Nil(t, l, "%s: %s", name, c.Piece.Name)
				continue
			}
			if !assert.NotNil(t, l, "%s: %s", name, c.Piece.Name) {
				continue
			}
			pieces++
			sound(t, c, l)
			again := plan.Design(j)
			assert.Equal(t, l, again.Look(&again.Pieces[i], 0), "%s: the same every time", c.Piece.Name)
		}
	}
	assert.Greater(t, pieces, 25)
}

// Of any piece, also one with substitutes, each pattern draws exactly what is counted, and makes kinds that add up.
func TestPatternsKeepTheCounts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(job.PieceKinds()).Draw(t, "kind").Value
		fields := map[string]any{"name": "It", "kind": kind, "line": rapid.SampledFrom([]string{"typed", "arc", "arch"}).
			Draw(t, "line"), "length_mm": rapid.IntRange(400, 9000).Draw(t, "length"),
			"width_mm": rapid.IntRange(900, 5000).Draw(t, "width"), "height_mm": rapid.IntRange(500, 3000).Draw(t, "height"),
			"diameter_mm": rapid.IntRange(900, 3000).Draw(t, "diameter"),
			"part_pct":    rapid.IntRange(20, 100).Draw(t, "part"), "count": rapid.IntRange(1, 6).Draw(t, "count"),
			"each": rapid.IntRange(1, 12).Draw(t, "each"), "digits": "407",
			"recipe": rapid.SampledFrom([]string{"2x11@10", "3x11@10", "2x11@10 + 1x18@16", "1x5@4.5 + 2x11@10 + 1x18@16"}).
				Draw(t, "recipe"),
			"pattern": rapid.SampledFrom(job.Patterns()).Draw(t, "pattern").Value,
			"mixes":   rapid.IntRange(2, 6).Draw(t, "mixes"), "accents": rapid.IntRange(0, 9).Draw(t, "accents"),
			"size_in": rapid.SampledFrom([]int{5, 11, 18}).Draw(t, "size"),
			"colours": []job.Share{{Colour: "a", Weight: float64(rapid.IntRange(1, 5).Draw(t, "a"))},
				{Colour: "b", Weight: float64(rapid.IntRange(0, 5).Draw(t, "b"))},
				{Colour: "c", Weight: float64(rapid.IntRange(0, 5).Draw(t, "c"))}},
			"counts": []job.TypedCount{{SizeIn: 11, Colour: "a", Count: 7}, {SizeIn: 5, Colour: "c", Count: 4}},
		}
		var changes []job.Change
		for name, value := range fields {
			changes = append(changes, job.Put("piece/it", name, value))
		}
		for id, sizes := range map[string][]int{"a": {5, 11, 18}, "b": {5, 11, 18}, "c": {5, 11}} {
			changes = append(changes, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "sizes", sizes))
		}
		p := plan.Design(job.Preview(changes))
		c := &p.Pieces[0]
		l := p.Look(c, 0)
		if c.Balloons == 0 || c.Balloons > look.MostDrawn {
			return
		}
		if !assert.NotNil(t, l) {
			return
		}
		sound(t, c, l)
		adds(t, c)
	})
}

// adds checks that the kinds of a piece, as often as each is made, are its balloons.
func adds(t asserting, c *count.PieceCount) {
	t.Helper()
	n := map[sort]int{}
	for _, laid := range []count.Laid{c.Laid, c.AccentsLaid} {
		made := make([]int, len(laid.Kinds))
		for _, kind := range laid.Sequence {
			made[kind]++
		}
		for i, k := range laid.Kinds {
			assert.Equal(t, k.Clusters, made[i], "kind %s", k.Name)
			if before := laid.Kinds[max(0, i-1)]; before.Odd == k.Odd {
				assert.GreaterOrEqual(t, before.Clusters, k.Clusters, "the more often one is made the earlier")
			} else {
				assert.True(t, k.Odd, "odd ones last")
			}
			for _, b := range k.By {
				n[sort{b.SizeIn, b.Colour.ID, b.Colour.Finish}] += b.Count * k.Clusters
			}
		}
	}
	assert.Equal(t, counted(c), n)
}

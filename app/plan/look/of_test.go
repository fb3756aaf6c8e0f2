package look_test

import (
	"math"
	"os"
	"path/filepath"
	"strconv"
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

// Of any piece, also one with substitutes, layers and several bases, each pattern draws exactly what is counted, and
// makes kinds that add up.
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
		if rapid.Bool().Draw(t, "several") {
			fields["bases"] = rapid.SliceOfN(rapid.SampledFrom([]float64{400, 1400, 2500}), 1, 3).Draw(t, "bases")
		}
		changes := drawLayers(t)
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

// drawLayers draws up to three layers on the piece "it".
func drawLayers(t *rapid.T) (changes []job.Change) {
	for i := range rapid.IntRange(0, 3).Draw(t, "layers") {
		from := rapid.IntRange(0, 99).Draw(t, "from")
		for name, value := range map[string]any{"piece": "it", "count": rapid.IntRange(-1, 12).Draw(t, "clusters"),
			"recipe":   rapid.SampledFrom([]string{"2x11@10", "3x5@4.5", "1x18@16 + 2x11@9"}).Draw(t, "of"),
			"from_pct": from, "to_pct": rapid.IntRange(from+1, 100).Draw(t, "to"),
			"side": rapid.SampledFrom([]string{"around", "outer", "inner"}).Draw(t, "side"), "order": i} {
			changes = append(changes, job.Put("layer/l"+strconv.Itoa(i), name, value))
		}
	}
	return changes
}

// Where a layer is seen: on its stretch of the line and on its side, in front of what is below. Measured as the mean of
// its balloons against that of the same layer elsewhere.
func TestALayerSitsWhereItSays(t *testing.T) {
	mean := func(shape map[string]any, layer map[string]any) (x, y float64) {
		var changes []job.Change
		for name, value := range shape {
			changes = append(changes, job.Put("piece/it", name, value))
		}
		for name, value := range layer {
			changes = append(changes, job.Put("layer/l", name, value))
		}
		changes = append(changes, job.Put("piece/it", "name", "It"), job.Put("piece/it", "accents", 5),
			job.Put("layer/l", "piece", "it"), job.Put("layer/l", "count", 12))
		p := plan.Design(job.Preview(changes))
		l := p.Look(&p.Pieces[0], 0)
		require.NotNil(t, l)
		n := 0
		for _, b := range l.Balloons {
			if b.Layer == 1 && !b.Accent {
				x, y, n = x+b.XMM, y+b.YMM, n+1
			}
			assert.Equal(t, b.Accent, b.Layer == 2)
		}
		require.Equal(t, 48, n)
		return x / 48, y / 48
	}
	line := map[string]any{"kind": "garland", "line": "typed", "length_mm": 4000}
	left, _ := mean(line, map[string]any{"from_pct": 0, "to_pct": 25})
	right, _ := mean(line, map[string]any{"from_pct": 75, "to_pct": 100})
	assert.InDelta(t, 500, left, 150)
	assert.InDelta(t, 3500, right, 150)
	_, up := mean(line, map[string]any{"side": "outer"})
	_, down := mean(line, map[string]any{"side": "inner"})
	_, round := mean(line, map[string]any{})
	assert.Greater(t, up-round, 60.0)
	assert.Greater(t, round-down, 60.0)
	arch := map[string]any{"kind": "garland", "line": "arch", "width_mm": 2400, "height_mm": 2400}
	_, foot := mean(arch, map[string]any{"from_pct": 0, "to_pct": 15})
	out, high := mean(arch, map[string]any{"from_pct": 0, "to_pct": 25, "side": "outer"})
	in, _ := mean(arch, map[string]any{"from_pct": 0, "to_pct": 25, "side": "inner"})
	assert.Less(t, foot, 700.0, "an arch starts at its left foot")
	assert.Greater(t, in-out, 120.0, "outer is outside of the arch, here left")
	assert.Less(t, high, 1200.0)
	columns := map[string]any{"kind": "column", "height_mm": 1800, "count": 5}
	_, low := mean(columns, map[string]any{"from_pct": 0, "to_pct": 20})
	_, top := mean(columns, map[string]any{"from_pct": 80, "to_pct": 100})
	assert.Less(t, low, 500.0, "from the foot, however wide they stand")
	assert.Greater(t, top, 1300.0)
}

// Each of two bases has free ends: its own clusters fill its own length, and nothing of it is on the other's.
func TestTwoBasesLieOneAfterAnother(t *testing.T) {
	p := plan.Design(job.Preview([]job.Change{job.Put("piece/it", "name", "It"), job.Put("piece/it", "accents", 0),
		job.Put("piece/it", "recipe", "2x11@9.5"), job.Put("piece/it", "bases", []float64{2100, 1400})}))
	c := &p.Pieces[0]
	l := p.Look(c, 0)
	require.NotNil(t, l)
	var sum [2]float64
	for _, b := range l.Balloons {
		if b.Cluster < c.Bases[0].Clusters {
			sum[0] += b.XMM
			assert.Less(t, b.XMM, 2100+150.0)
		} else {
			sum[1] += b.XMM
			assert.Greater(t, b.XMM, 2100-150.0)
		}
	}
	assert.InDelta(t, 1050, sum[0]/float64(4*c.Bases[0].Clusters), 20, "the middle of the first")
	assert.InDelta(t, 2100+700, sum[1]/float64(4*c.Bases[1].Clusters), 20, "the middle of the second")
}

// adds checks that the kinds of a piece, as often as each is made, are its balloons.
func adds(t asserting, c *count.PieceCount) {
	t.Helper()
	n := map[sort]int{}
	all := []count.Laid{c.Laid}
	for _, on := range c.On() {
		all = append(all, on.Laid)
	}
	for _, laid := range all {
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

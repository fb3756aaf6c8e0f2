package plan_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
)

// mixed returns a job with a garland whose recipe has 18-inch balloons, which ink blue lacks.
func mixed(more ...job.Change) job.Job {
	return made(append(piece("door", "garland", map[string]any{"length_mm": 5000, "recipe": "2x11@10 + 1x18@16",
		"accents": 0, "colours": shares("coral", 3.0, "ink", 1.0)}), more...)...)
}

func ofSize(c count.PieceCount, colour string, sizeIn int) int {
	n := 0
	for _, b := range c.By {
		if b.Colour.ID == colour && b.SizeIn == sizeIn {
			n += b.Count
		}
	}
	return n
}

func TestSubstituteClusters(t *testing.T) {
	p := plan.Make(mixed())
	c := only(t, p)
	require.Len(t, c.Substitutes, 1)
	substitute := c.Substitutes[0]
	// Common practice, no source: four 11-inch duplets replace the cluster of a colour that only comes in 11 inch.
	assert.Equal(t, "4x11@10", substitute.Recipe.String())
	assert.Greater(t, substitute.ClosesPct, 0.0)
	assert.LessOrEqual(t, substitute.ClosesPct, 100.0)
	assert.Equal(t, 8*substitute.Clusters, ofSize(c, "ink", 11))
	assert.Zero(t, ofSize(c, "ink", 18))
	assert.Equal(t, 4*(c.Clusters-substitute.Clusters), ofSize(c, "coral", 11))
	assert.Equal(t, 2*(c.Clusters-substitute.Clusters), ofSize(c, "coral", 18))

	require.NotEmpty(t, p.Notes)
	note := p.Notes[0]
	assert.Equal(t, "substitute", note.Kind)
	assert.Equal(t, "substitute/door/ink/18", note.Key)
	assert.Empty(t, note.Picked)
	assert.Regexp(t,
		`Its clusters can be built of 4 duplets of 11-inch instead: smaller than the 18-inch look\.`,
		note.Text)
	var values []string
	for _, o := range note.Options {
		values = append(values, o.Value)
	}
	assert.Equal(t, []string{"accept", "others", "keep"}, values)
}

func TestSubstitutePicks(t *testing.T) {
	rows := []struct {
		pick                string
		inkBig, substitutes int
	}{
		{"accept", 0, 1},
		{"others", 0, 0},
		{"keep", 1, 0},
	}
	for _, row := range rows {
		t.Run(row.pick, func(t *testing.T) {
			p := plan.Make(mixed(job.Put("choice/substitute/door/ink/18", "pick", row.pick)))
			c := only(t, p)
			assert.Equal(t, row.pick, p.Notes[0].Picked)
			assert.Len(t, c.Substitutes, row.substitutes)
			assert.Equal(t, row.inkBig > 0, ofSize(c, "ink", 18) > 0)
			if row.substitutes == 0 {
				assert.Equal(t, 2*c.Clusters, ofSize(c, "ink", 18)+ofSize(c, "coral", 18), "every cluster has its two")
			}
		})
	}
}

func TestAPickThatIsNoOptionCountsAsUndecided(t *testing.T) {
	p := plan.Make(mixed(job.Put("choice/substitute/door/ink/18", "pick", "maybe")))
	assert.Empty(t, p.Notes[0].Picked)
	assert.Len(t, only(t, p).Substitutes, 1)
}

func TestSinglesWithoutTheirSize(t *testing.T) {
	bunch := func(colours []job.Share, more ...job.Change) count.PieceCount {
		return only(t, plan.Make(made(append(piece("desk", "tables",
			map[string]any{"count": 5, "each": 4, "size_in": 18, "to_in": 16, "colours": colours}), more...)...)))
	}
	c := bunch(shares("coral", 1.0, "ink", 1.0))
	assert.Equal(t, 20, ofSize(c, "coral", 18), "the other colours replace it")
	c = bunch(shares("ink", 1.0))
	assert.Equal(t, 20, ofSize(c, "ink", 11), "its nearest size, as there is no other colour")
	c = bunch(shares("ink", 1.0), job.Put("choice/substitute/desk/ink/18", "pick", "keep"))
	assert.Equal(t, 20, ofSize(c, "ink", 18))
}

func TestAccentsLeaveOutColoursThatLackTheirSize(t *testing.T) {
	j := made(piece("door", "garland", map[string]any{"recipe": "2x11@10", "accent_recipe": "1x18@16", "accents": 4,
		"colours": shares("coral", 1.0, "ink", 1.0)})...)
	p := plan.Make(j)
	assert.Equal(t, 8, ofSize(only(t, p), "coral", 18))
	for _, n := range p.Notes {
		assert.NotEqual(t, "substitute", n.Kind, "the piece's colours ask no question for accents")
	}
}

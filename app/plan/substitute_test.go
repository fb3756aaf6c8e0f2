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
	assert.Equal(t, "substitute/ink/18", note.Key)
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
			p := plan.Make(mixed(job.Put("choice/substitute/ink/18", "pick", row.pick)))
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
	p := plan.Make(mixed(job.Put("choice/substitute/door/ink/18", "pick", "maybe"),
		job.Put("choice/substitute/ink/18", "pick", "perhaps")))
	assert.Empty(t, p.Notes[0].Picked)
	assert.Len(t, only(t, p).Substitutes, 1)
}

// lacking returns a job with a garland, a hoop and a table piece that all want ink blue in 18-inch, which it lacks.
func lacking(more ...job.Change) job.Job {
	changes := piece("hoop", "garland", map[string]any{"length_mm": 3000, "recipe": "2x11@10 + 1x18@16", "accents": 0,
		"colours": shares("coral", 1.0, "ink", 1.0)})
	changes = append(changes, piece("desk", "tables", map[string]any{"count": 5, "each": 4, "size_in": 18, "to_in": 16,
		"colours": shares("coral", 1.0, "ink", 1.0)})...)
	return mixed(append(changes, more...)...)
}

// A colour that lacks a size is asked about once, whatever pieces want it.
func TestOneQuestionForAMissingSize(t *testing.T) {
	pick := func(key, value string) job.Change { return job.Put("choice/substitute/"+key, "pick", value) }
	rows := []struct {
		name    string
		choices []job.Change
		big     map[string]bool // pieces that have ink blue in 18-inch
		subs    map[string]int  // clusters of another recipe in it
		picked  string
		open    bool
		says    []string
	}{
		{"not answered: each piece as it would alone", nil, nil, map[string]int{"door": 1, "hoop": 1}, "", true,
			[]string{"wanted for desk, door and hoop.", "door and hoop: its clusters can be built of 4 duplets",
				"desk: counted in the other colours for now."}},
		{"one answer counts in all", []job.Change{pick("ink/18", "keep")},
			map[string]bool{"door": true, "hoop": true, "desk": true}, nil, "keep", false, nil},
		{"an answer of earlier versions counts for its piece",
			[]job.Change{pick("door/ink/18", "keep")}, map[string]bool{"door": true}, map[string]int{"hoop": 1}, "", true,
			[]string{"door: decided: Keep 18-inch"}},
		{"and stays beside the answer for all", []job.Change{pick("door/ink/18", "keep"), pick("ink/18", "others")},
			map[string]bool{"door": true}, nil, "", false, []string{"door: decided: Keep 18-inch"}},
		{"the same answer for every piece is one answer", []job.Change{pick("door/ink/18", "keep"),
			pick("hoop/ink/18", "keep"), pick("desk/ink/18", "keep")},
			map[string]bool{"door": true, "hoop": true, "desk": true}, nil, "keep", false, nil},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(lacking(row.choices...))
			var asked []count.Note
			for _, n := range p.Notes {
				if n.Kind == "substitute" {
					asked = append(asked, n)
				}
			}
			require.Len(t, asked, 1)
			assert.Equal(t, "substitute/ink/18", asked[0].Key)
			assert.Equal(t, "Ink blue has no 18-inch", asked[0].Title)
			assert.Equal(t, row.picked, asked[0].Picked)
			assert.Equal(t, row.open, asked[0].Open())
			for _, says := range row.says {
				assert.Contains(t, asked[0].Text, says)
			}
			for _, c := range p.Pieces {
				id := c.Piece.ID
				assert.Equal(t, row.big[id], ofSize(c, "ink", 18) > 0, id)
				assert.Len(t, c.Substitutes, row.subs[id], id)
				assert.True(t, asked[0].About(id), id)
			}
		})
	}
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

package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/plan"
	"garlandry/calc/cluster"
)

// Two bases tied to one another count each for itself: clusters, sections, ties. By hand: with quads of 9.5 in, two to
// the foot, 2.1 m have 14 clusters and 1.4 m have 10, rounded up. Ties: one for each of 24 clusters; to fix, one every
// two feet and two for the ends, 3.44 + 2 and 2.30 + 2, each rounded up; one where they meet. 24 + 6 + 5 + 1 = 36.
func TestTwoBases(t *testing.T) {
	c := only(t, plan.Make(made(door(map[string]any{"length_mm": 3500, "bases": []float64{2100, 1400}})...)))
	assert.InDelta(t, 3500, c.LengthMM, 1e-9)
	require.Len(t, c.Bases, 2)
	quads, push := recipeOf(t, "2x11@9.5"), cluster.StandardPush()
	assert.Equal(t, 14, c.Bases[0].Clusters)
	assert.Equal(t, 10, c.Bases[1].Clusters)
	assert.Equal(t, cluster.ClustersAlong(2100, quads, push), c.Bases[0].Clusters)
	assert.Equal(t, 24, c.Clusters)
	assert.Equal(t, 96, c.Balloons)
	assert.Equal(t, 36, c.Ties)
	require.Len(t, c.Sections, 3, "1,524 mm go into a car, so the longer base is cut")
	assert.Equal(t, []int{1, 1, 2}, []int{c.Sections[0].Base, c.Sections[1].Base, c.Sections[2].Base})
	assert.Equal(t, []int{7, 7, 10}, []int{c.Sections[0].Clusters, c.Sections[1].Clusters, c.Sections[2].Clusters})
	assert.InDelta(t, 1400, c.Sections[2].LengthMM, 1e-9)
}

func TestCardsOfTwoBases(t *testing.T) {
	p := plan.Make(made(door(map[string]any{"length_mm": 3500, "bases": []float64{2100, 1400},
		"colours": shares("coral", 1.0, "ink", 1.0), "pattern": "bands"})...))
	join := strings.Join(cards(p)["card/join/door"].Steps, "\n")
	assert.Contains(t, join, "Base 1, section 1: 7 clusters, about 1.05 m long. In this order, from its start: ")
	assert.Contains(t, join, "Base 1, section 2: 7 clusters")
	assert.Contains(t, join, "Base 2, section 1: 10 clusters, about 1.4 m long. In this order, from its start: 10 x ")
	assert.Contains(t, cards(p)["card/fix/door"].Steps[0], "Tie each base to the next")
}

// Where bases do not make up their line, a note says how far they are off, and nothing is scaled.
func TestBasesThatDoNotFitTheirLine(t *testing.T) {
	for _, row := range []struct {
		name   string
		fields map[string]any
		want   string // "" for no note
		longMM float64
	}{
		{"a typed line that is their sum", map[string]any{"length_mm": 3500}, "", 3500},
		{"a typed line within two percent", map[string]any{"length_mm": 3560}, "", 3500},
		{"a typed line of another length", map[string]any{"length_mm": 3000}, "Counted and drawn as they are", 3500},
		{"an arch that they do not fill", map[string]any{"line": "arch", "width_mm": 2000, "height_mm": 2500},
			"at the end stays bare", 3500},
		{"an arch that is too short", map[string]any{"line": "arch", "width_mm": 1000, "height_mm": 1000},
			"too long; it is drawn squeezed", 3500},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.fields["bases"] = []float64{2100, 1400}
			p := plan.Make(made(door(row.fields)...))
			c := only(t, p)
			assert.InDelta(t, row.longMM, c.LengthMM, 1e-9)
			notes := ""
			for _, n := range p.Notes {
				if strings.Contains(n.Text, "its bases") {
					notes += n.Text
				}
			}
			if row.want == "" {
				assert.Empty(t, notes)
			} else {
				assert.Contains(t, notes, row.want)
			}
			assert.Equal(t, 24, c.Clusters, "nothing is scaled")
			assert.NotNil(t, p.Look(&c, 0))
		})
	}
}

package plan_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
	"garlandry/calc/cluster"
)

// layer returns the changes that make a layer on the piece "door".
func layer(id string, fields map[string]any) []job.Change {
	changes := []job.Change{job.Put("layer/"+id, "piece", "door")}
	for name, value := range fields {
		changes = append(changes, job.Put("layer/"+id, name, value))
	}
	return changes
}

// door returns a garland of 3.048 m, ten feet, without accents, and a car that takes all of it at once.
func door(fields map[string]any) []job.Change {
	all := map[string]any{"length_mm": 3048, "recipe": "2x11@9.5", "colours": shares("coral", 1.0), "accents": 0}
	for name, value := range fields {
		all[name] = value
	}
	return append(piece("door", "garland", all), job.Put("brief", "units", "metric"), job.Put("kit/car", "kind", "car"),
		job.Put("kit/car", "name", "van"), job.Put("kit/car", "litres", 6000), job.Put("kit/car", "longest_mm", 1524))
}

// The ties of a layer by hand: trade.md, "Building", common practice. A cluster of two duplets has four balloons.
func TestTiesOfALayer(t *testing.T) {
	bare := only(t, plan.Make(made(door(nil)...)))
	for _, row := range []struct {
		name                 string
		clusters             int
		tie                  string
		balloons, ties, dots int
	}{
		{"a whole 260 for each", 9, "each", 36, 9, 0},
		{"one 260 for two, the odd one takes one too", 9, "pair", 36, 5, 0},
		{"one 260 for two, even", 8, "pair", 32, 4, 0},
		{"half a 260 for each", 9, "half", 36, 5, 0},
		{"glue dots take no 260", 9, "glue", 36, 0, 36},
		{"a single one tied by half", 1, "half", 4, 1, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(made(append(door(nil), layer("up", map[string]any{"count": row.clusters, "tie": row.tie})...)...))
			c := only(t, p)
			require.Len(t, c.Layers, 1)
			on := c.Layers[0]
			assert.Equal(t, row.clusters, on.Clusters)
			assert.Equal(t, row.balloons, on.Balloons)
			assert.Equal(t, row.ties, on.Ties)
			assert.Equal(t, row.dots, on.GlueDots)
			assert.Equal(t, bare.Ties+row.ties, c.Ties)
			assert.Equal(t, bare.Balloons+row.balloons, c.Balloons)
			_, glue := packLines(p)["pack/supply/glue-dots"]
			assert.Equal(t, row.dots > 0, glue)
		})
	}
}

// Accents tied by pairs, the default, count as they always did, by the figure that the user may have changed.
func TestTiesOfAccents(t *testing.T) {
	for _, row := range []struct {
		name  string
		tie   string
		own   float64 // of ties/accent; 0: the table's
		ties  int
		rolls int // of glue dots
	}{
		{"not said", "", 0, 4, 1}, {"pair", "pair", 0, 4, 1}, {"half", "half", 0, 4, 1}, {"each", "each", 0, 7, 1},
		{"glue", "glue", 0, 0, 1}, {"not said, own figure", "", 1, 7, 1}, {"each, own figure", "each", 0.1, 7, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			fields := map[string]any{"accents": 7}
			if row.tie != "" {
				fields["accent_tie"] = row.tie
			}
			changes := door(fields)
			if row.own > 0 {
				changes = append(changes, job.Put("override/ties/accent", "value", row.own))
			}
			bare, p := only(t, plan.Make(made(door(nil)...))), plan.Make(made(changes...))
			assert.Equal(t, bare.Ties+row.ties, only(t, p).Ties)
			assert.Equal(t, row.rolls, packLines(p)["pack/supply/glue-dots"].Need)
		})
	}
}

// A cover counts by the model of the accents' calculator over the layer's own stretch.
func TestALayerCoversItsStretch(t *testing.T) {
	base, on := recipeOf(t, "2x11@9.5"), recipeOf(t, "2x11@10")
	for _, row := range []struct {
		name              string
		fields            map[string]any
		lengthMM, percent float64 // percent 0: by the spacing
	}{
		{"all of it", map[string]any{"cover_pct": 98}, 3048, 98},
		{"the upper part", map[string]any{"cover_pct": 98, "from_pct": 60}, 0.4 * 3048, 98},
		{"a middle part", map[string]any{"cover_pct": 99, "from_pct": 25, "to_pct": 50}, 0.25 * 3048, 99},
		{"one a foot", map[string]any{}, 3048, 0},
		{"one a foot of the upper half", map[string]any{"from_pct": 50}, 1524, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			want := int(row.lengthMM/304.8 + 0.5)
			if row.percent > 0 {
				want = cluster.Accents(row.lengthMM, base, on, cluster.StandardPush(), row.percent/100).Accents
			}
			c := only(t, plan.Make(made(append(door(nil), layer("up", row.fields)...)...)))
			require.Len(t, c.Layers, 1)
			assert.Equal(t, want, c.Layers[0].Clusters)
			assert.Positive(t, want)
		})
	}
}

func recipeOf(t *testing.T, text string) cluster.Recipe {
	t.Helper()
	r, err := cluster.ParseRecipe(text)
	require.NoError(t, err)
	return r
}

// Layers are made where they say, put on after the base and the layers below, and before the accents.
func TestCardsOfLayers(t *testing.T) {
	changes := append(door(map[string]any{"accents": 4}), layer("low", map[string]any{"count": 9, "order": 1,
		"from_pct": 60, "side": "outer", "name": "Up to the ceiling"})...)
	changes = append(changes, layer("high", map[string]any{"count": 3, "order": 2, "built": "site", "tie": "glue"})...)
	p := plan.Make(made(changes...))
	all := cards(p)
	low, high := all["card/layer/low"], all["card/layer/high"]
	assert.Equal(t, "Make the layer for door: Up to the ceiling", low.Title)
	assert.Equal(t, []task.Place{task.Home, task.Site}, []task.Place{low.Place, high.Place})
	assert.Equal(t, []int{9, 3}, []int{low.Count, high.Count})
	assert.Equal(t, "door", low.Piece)
	// 9 clusters: 18 duplets of 11-inch at 1.0 min, 9 twists at 0.6: beginners, common practice
	assert.InDelta(t, 18*1.0+9*0.6, low.MinutesBy["beginner"], 1e-9)
	grow, then, dress := all["card/grow/low"], all["card/grow/high"], all["card/dress/door"]
	assert.InDelta(t, 9*1.0, grow.MinutesBy["beginner"], 1e-9, "fixing one takes a minute")
	assert.Equal(t, []string{"card/fix/door", "card/layer/low"}, task.Keys(grow.After))
	assert.Equal(t, []string{"card/fix/door", "card/grow/low", "card/layer/high"}, task.Keys(then.After))
	assert.Subset(t, task.Keys(dress.After), []string{"card/grow/low", "card/grow/high"})
	assert.Contains(t, grow.Steps[0], "from 1.83 m to 3.05 m, measured from the left end, on the outer side")
	assert.Contains(t, then.Steps[1], "glue dots")
	pack := packLines(p)
	assert.Equal(t, "Up to the ceiling for door, ready made", pack["pack/made/layer/low"].Name)
	_, packed := pack["pack/made/layer/high"]
	assert.False(t, packed, "what is made on site is not packed ready made")
}

// A layer follows its piece: it is made where the piece is, unless it says where.
func TestWhereALayerIsMade(t *testing.T) {
	for _, row := range []struct {
		piece, layer string
		want         task.Place
	}{
		{"home", "piece", task.Home}, {"home", "site", task.Site}, {"site", "piece", task.Site}, {"site", "home", task.Home},
	} {
		p := plan.Make(made(append(door(map[string]any{"built": row.piece}),
			layer("up", map[string]any{"count": 4, "built": row.layer})...)...))
		assert.Equal(t, row.want, cards(p)["card/layer/up"].Place, "%+v", row)
	}
}

// A colour that a layer's size lacks is asked about as for the base.
func TestALayerInAColourThatLacksItsSize(t *testing.T) {
	p := plan.Make(made(append(door(nil), layer("up", map[string]any{"count": 4, "recipe": "2x18@16",
		"colours": shares("ink", 1.0)})...)...))
	var asked *count.Note
	for i := range p.Notes {
		if p.Notes[i].Key == count.LackKey("ink", 18) {
			asked = &p.Notes[i]
		}
	}
	require.NotNil(t, asked)
	assert.Contains(t, asked.Text, "wanted for Thickening on door")
	c := only(t, p)
	require.Len(t, c.Substitutes, 1)
	assert.Equal(t, "up", c.Substitutes[0].Layer)
	assert.False(t, c.Substitutes[0].Accent)
	for _, b := range c.Layers[0].By {
		assert.Equal(t, 11, b.SizeIn, "ink comes in 11-inch at most")
	}
}

// A layer that is added and removed leaves nothing behind.
func TestALayerAddedAndRemovedLeavesThePlanAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		changes := anyChanges(t)
		before := job.Preview(changes)
		with := append(append([]job.Change{}, changes...), job.Put("layer/extra", "piece", "p0"),
			job.Put("layer/extra", "count", rapid.IntRange(-1, 30).Draw(t, "clusters")),
			job.Put("layer/extra", "side", "outer"))
		after := job.Preview(append(append([]job.Change{}, with...), job.Put("layer/extra", "removed", true)))
		if plan.DesignFingerprint(before) != plan.DesignFingerprint(after) {
			t.Fatalf("the fingerprint changed")
		}
		if len(job.Preview(with).Layers) > len(before.Layers) &&
			plan.DesignFingerprint(before) == plan.DesignFingerprint(job.Preview(with)) {
			t.Fatalf("a layer must change the fingerprint")
		}
		if jsonOf(t, plan.Make(before)) != jsonOf(t, plan.Make(after)) {
			t.Fatalf("the plan changed")
		}
	})
}

// A layer of a piece that was removed counts nowhere, and is there again with its piece.
func TestALayerGoesWithItsPiece(t *testing.T) {
	changes := append(door(nil), layer("up", map[string]any{"count": 4})...)
	gone := made(append(changes, job.Put("piece/door", "removed", true))...)
	assert.Empty(t, gone.Layers)
	assert.Empty(t, plan.Make(gone).Balloons)
	back := made(append(changes, job.Put("piece/door", "removed", true), job.Put("piece/door", "removed", false))...)
	require.Len(t, back.Layers, 1)
	text, err := json.Marshal(plan.Make(back))
	require.NoError(t, err)
	whole, err := json.Marshal(plan.Make(made(changes...)))
	require.NoError(t, err)
	assert.Equal(t, string(whole), string(text))
}

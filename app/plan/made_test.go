package plan_test

import (
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// threeColours is a garland of three colours with several kinds of cluster.
func threeColours(more ...job.Change) job.Job {
	var changes []job.Change
	for _, id := range []string{"sand", "blush"} {
		changes = append(changes, job.Put("colour/"+id, "name", id), job.Put("colour/"+id, "sizes", []int{5, 11, 18}))
	}
	changes = append(changes, piece("door", "garland", map[string]any{"length_mm": 4000, "recipe": "2x11@10 + 1x18@16",
		"accents": 0,
		"colours": shares("coral", 3.0, "sand", 2.0, "blush", 2.0)})...)
	return made(append(changes, more...)...)
}

// doorKey is the card that makes its clusters.
const doorKey = "card/make/door"

// filled counts the clusters of each kind that are made.
func filled(l *count.Laid, m plan.Made) []int {
	n := make([]int, len(l.Kinds))
	for i, is := range m.Filled {
		if is {
			n[l.Sequence[i]]++
		}
	}
	return n
}

func TestKindsAreTallied(t *testing.T) {
	c := only(t, plan.Make(threeColours()))
	require.Greater(t, len(c.Laid.Kinds), 2, "the garland has several kinds")
	keys := c.Laid.Keys()
	p := plan.Make(threeColours(job.CountOf(doorKey, 2, keys[1]), job.CountOf(doorKey, 1, "11/coral/99"),
		job.Count(doorKey, 2)))
	m := p.Made(&c, 0)
	assert.Equal(t, 5, m.Total)
	assert.Equal(t, 5, cards(p)[doorKey].Made, "the card counts them all")
	assert.Equal(t, 2, m.ByKind[1])
	assert.Zero(t, m.ByKind[0])
	assert.Equal(t, 3, m.Plain(), "two without a kind, one of a kind that the piece has not")
	seen := 0
	for i, kind := range c.Laid.Sequence {
		if kind == 1 {
			seen++
			assert.True(t, m.Filled[i] || seen > 2, "the first of the kind are made")
		}
	}
	assert.True(t, m.Filled[0], "what has no kind fills the first")
}

// A design that changes keeps what fits: kinds are known by their balloons, not by their letters.
func TestKindsSurviveAChange(t *testing.T) {
	c := only(t, plan.Make(threeColours()))
	key := c.Laid.Kinds[0].Key()
	longer := plan.Make(threeColours(job.CountOf(doorKey, 2, key), job.Put("piece/door", "length_mm", 4600)))
	after := only(t, longer)
	m := longer.Made(&after, 0)
	assert.Equal(t, 2, m.Total)
	for i := range after.Laid.Kinds {
		if after.Laid.Kinds[i].Key() == key {
			assert.Equal(t, 2, m.ByKind[i])
			return
		}
	}
	assert.Equal(t, 2, m.Plain(), "the kind is gone; the total stays")
}

func TestKeysAreOfBalloons(t *testing.T) {
	of := func(sizeIn int, toIn float64, colour job.Colour, n int) count.PieceBalloons {
		return count.PieceBalloons{SizeIn: sizeIn, ToIn: toIn, Colour: colour, Count: n}
	}
	coral, sand := job.Colour{ID: "coral"}, job.Colour{ID: "sand"}
	for _, row := range []struct {
		name string
		by   []count.PieceBalloons
		want string
	}{
		{"sizes, then colours", []count.PieceBalloons{of(18, 16, coral, 2), of(11, 10, sand, 1), of(11, 10, coral, 3)},
			"11/coral/3+11/sand/1+18/coral/2"},
		{"one size inflated to two", []count.PieceBalloons{of(11, 10.5, coral, 2), of(11, 9, coral, 2)},
			"11@10.5/coral/2+11@9/coral/2"},
		{"nothing", nil, ""},
	} {
		k := count.ClusterKind{By: row.by}
		assert.Equal(t, row.want, k.Key(), row.name)
	}
}

// Whatever is tallied, as many clusters are filled as are made, of each kind at least those that were tallied of it.
// The kinds of a piece have different keys.
func TestFillingFollowsTheTally(t *testing.T) {
	c := only(t, plan.Make(threeColours()))
	keys := c.Laid.Keys()
	rapid.Check(t, func(t *rapid.T) {
		var changes []job.Change
		for range rapid.IntRange(0, 8).Draw(t, "changes") {
			n := int64(rapid.IntRange(1, 9).Draw(t, "n"))
			if rapid.IntRange(0, 4).Draw(t, "less") == 0 {
				n = -n
			}
			kind := rapid.IntRange(-1, len(keys)-1).Draw(t, "kind")
			if kind < 0 {
				changes = append(changes, job.Count(doorKey, n))
				continue
			}
			changes = append(changes, job.CountOf(doorKey, n, keys[kind]))
		}
		p := plan.Make(threeColours(changes...))
		m := p.Made(&c, 0)
		all := 0
		for i, n := range filled(&c.Laid, m) {
			all += n
			if m.ByKind != nil {
				assert.GreaterOrEqual(t, n, m.ByKind[i])
			}
		}
		assert.Equal(t, min(m.Total, c.Clusters), all)
		assert.GreaterOrEqual(t, m.Plain(), 0)
	})
	seen := map[string]bool{}
	for _, key := range keys {
		assert.False(t, seen[key], key)
		seen[key] = true
	}
}

package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

// Of the aisle's forty clusters some are made ahead at home and the rest on site. Together they stay forty.
func TestSomeOfAPieceIsMadeAhead(t *testing.T) {
	j := readJob(t, "orchard-wedding")
	before := plan.Make(j)
	all := cards(before)["card/make/aisle"]
	require.Equal(t, task.Site, all.Place)
	rows := []struct {
		name        string
		ahead       int
		home, there int // clusters
	}{
		{"none", 0, 0, 40},
		{"some", 15, 15, 25},
		{"all", 40, 40, 0},
		{"more than there are", 90, 40, 0},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(job.Try(j, []job.Change{job.Put("piece/aisle", "ahead", row.ahead)}))
			byKey := cards(p)
			home, there := byKey["card/ahead/aisle"], byKey["card/make/aisle"]
			assert.Equal(t, []int{row.home, row.there}, []int{home.Count, there.Count})
			if row.home > 0 {
				assert.Equal(t, task.Home, home.Place)
				assert.Contains(t, home.Title, "ahead for Aisle columns")
				assert.InDelta(t, all.MinutesBy["practised"], home.MinutesBy["practised"]+there.MinutesBy["practised"], 1e-9,
					"the work is the same")
				assert.InDelta(t, float64(row.home)/40, home.MinutesBy["practised"]/all.MinutesBy["practised"], 1e-9)
				assert.Contains(t, packLines(p), "pack/made/aisle", "they are carried in bags")
				assert.Contains(t, home.Steps[len(home.Steps)-2], "clear bag")
			} else {
				assert.NotContains(t, packLines(p), "pack/made/aisle")
			}
			require.Len(t, p.Balloons, len(before.Balloons))
			for i, line := range before.Balloons {
				assert.Equal(t, []int{line.Need, line.Buy}, []int{p.Balloons[i].Need, p.Balloons[i].Buy},
					"the place changes no count: %s", line.Key)
			}
			fix := byKey["card/fix/aisle"]
			for _, key := range []string{"card/ahead/aisle", "card/make/aisle"} {
				_, there := byKey[key]
				assert.Equal(t, there, strings.Contains(strings.Join(task.Keys(fix.After), " "), key),
					"putting up waits for it: %s", key)
			}
			moved := job.Try(j,
				[]job.Change{job.Put("piece/aisle", "ahead", row.ahead), job.Put("piece/aisle", "built", "home")})
			assert.Equal(t, 40, cards(plan.Make(moved))["card/make/aisle"].Count,
				"a piece built at home has nothing to make ahead")
		})
	}
}

// Clusters made ahead are loose in the car: a small car needs more trips with them, a big one does not.
func TestClustersMadeAheadNeedTheCar(t *testing.T) {
	trips := func(litres, ahead int) (n int) {
		j := job.Try(readJob(t, "orchard-wedding"), []job.Change{job.Put("kit/car", "litres", litres),
			job.Put("kit/car", "longest_mm", 900), job.Put("piece/aisle", "ahead", ahead)})
		for _, c := range plan.Make(j).Cards {
			if strings.HasPrefix(c.Key, "card/trip/") {
				n++
			}
		}
		return n
	}
	assert.Zero(t, trips(300, 0))
	assert.Positive(t, trips(300, 40))
	assert.Zero(t, trips(6000, 40))
}

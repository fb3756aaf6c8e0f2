package forecast_test

import (
	"slices"
	"strings"
	"testing"

	"garlandry/app/forecast"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
	"garlandry/calc/cluster"
)

// Only one section at a time passes a narrow doorway. A wide doorway, or one of unknown width, has no cards for this.
func TestNarrowDoorway(t *testing.T) {
	t.Parallel()
	demo := readJob(t, "reading-room")
	carried := func(door any) (cards []string, c *forecast.Forecast) {
		j := job.Try(demo, []job.Change{job.Put("brief", "door_mm", door)})
		for _, card := range plan.Make(j).Cards {
			if strings.HasPrefix(card.Key, "card/carry/") {
				cards = append(cards, card.Key)
				assert.Equal(t, 2, card.HandsMin)
				assert.Contains(t, task.Keys(card.After), "card/unload")
			}
		}
		return cards, clockOf(t, j, longBefore(t, demo), nil)
	}
	none, wide := carried(nil)
	assert.Empty(t, none)
	none, _ = carried(1200)
	assert.Empty(t, none)
	cards, narrow := carried(1150)
	assert.Equal(t, []string{"card/carry/door", "card/carry/desk", "card/carry/ring"}, cards,
		"the sections joined at home")
	require.True(t, narrow.Planned())
	assert.Greater(t, narrow.Ninety, wide.Ninety)
	through := append(cards, "card/unload")
	for i, key := range through {
		one, there := narrow.Task(key)
		require.True(t, there, key)
		for _, other := range through[:i] {
			two, _ := narrow.Task(other)
			assert.True(t, one.End <= two.Start || two.End <= one.Start, "%s and %s", key, other)
		}
	}
	fix, _ := narrow.Task("card/fix/door")
	carry, _ := narrow.Task("card/carry/door")
	assert.GreaterOrEqual(t, fix.Start, carry.End)

	door, _ := demo.Piece("door")
	across := cluster.WidestMM(door.Recipe, cluster.StandardPush())
	tight := job.Try(demo, []job.Change{job.Put("brief", "door_mm", 0.95*across)})
	assert.Contains(t, strings.Join(cardsByKey(plan.Make(tight))["card/carry/door"].Steps, " "), "across and the doorway")
	shut := plan.Make(job.Try(demo, []job.Change{job.Put("brief", "door_mm", 0.85*across)}))
	assert.NotContains(t, cardsByKey(shut), "card/carry/door", "it gives a tenth, no more")
	assert.Equal(t, task.Site, cardsByKey(shut)["card/join/door"].Place)
	four := job.Try(tight,
		[]job.Change{job.Put("member/olek", "name", "Olek"), job.Put("member/olek", "skill", "practised")})
	c := clockOf(t, four, longBefore(t, demo), nil)
	for i, key := range cards {
		one, _ := c.Task(key)
		for _, other := range cards[:i] {
			two, _ := c.Task(other)
			assert.True(t, one.End <= two.Start || two.End <= one.Start, "two people, one doorway: %s and %s", key,
				other)
		}
	}
}

// A bouquet fills from a helium cylinder, so one pump serves clusters at the same time.
func TestHeliumDoesNotTakeThePump(t *testing.T) {
	j := made(
		slices.Concat(
			[]job.Change{job.Put("brief", "in", "2027-05-08T08:00"), job.Put("brief", "doors", "2027-05-08T14:00"),
				job.Put("member/a", "name", "Ines"), job.Put("member/b", "name", "Bea"),
				job.Put("override/clock/pump-hands", "value", 1),
				job.Put("override/helium/spare-min", "value", 240)}, // it may be filled all day
			piece("swag", "garland", map[string]any{"length_mm": 6000, "recipe": "2x11@9.5", "built": "site", "accents": 0,
				"colours": shares("coral", 1.0)}),
			piece("float", "bouquets", map[string]any{"count": 12, "each": 5, "size_in": 11, "to_in": 11, "gas": "helium",
				"built": "site", "colours": shares("coral", 1.0)}))...)
	c := clockOf(t, j, longBefore(t, j), nil)
	air, _ := c.Task("card/make/swag")
	helium, there := c.Task("card/make/float")
	require.True(t, there)
	assert.True(t, air.Start < helium.End && helium.Start < air.End, "%d-%d and %d-%d", air.Start, air.End, helium.Start,
		helium.End)
}

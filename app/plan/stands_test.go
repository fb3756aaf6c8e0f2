package plan_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

// tickedThen returns the changes that tick a card for a garland of 3 m, followed by further changes.
func tickedThen(card string, changes ...job.Change) []job.Change {
	stands := standsOf(plan.Make(garland(3048)), card)
	return append([]job.Change{job.Put(card, "done", true), job.Put(card, "stands", stands)}, changes...)
}

// eachLine returns a function that makes a change of each pack line of a changed garland of 3 m, after the changes.
func eachLine(change func(packing.Line) job.Change) func(now ...job.Change) []job.Change {
	return func(now ...job.Change) []job.Change {
		var list []job.Change
		for _, line := range packLines(plan.Make(garland(3048, now...))) {
			list = append(list, change(line))
		}
		return append(list, now...)
	}
}

// A ticked card reopens when more of anything is needed, and says what it was ticked for.
func TestTickReopensWhenMoreIsNeeded(t *testing.T) {
	coral := job.Put("piece/door", "colours", shares("coral", 1.0))
	ink := job.Put("piece/door", "colours", shares("ink", 1.0))
	long, short := job.Put("piece/door", "length_mm", 4572), job.Put("piece/door", "length_mm", 1524)
	packed, unneeded := eachLine(func(l packing.Line) job.Change { return job.Put(l.Key, "have", l.Need) }),
		eachLine(func(l packing.Line) job.Change { return job.Put(l.Key, "unneeded", true) })
	rows := []struct {
		name, card string
		changes    []job.Change
		open       string // text of the reopened card; "" if it stays done
	}{
		{"balloons, as it was", "card/shop", tickedThen("card/shop"), ""},
		{"balloons, longer", "card/shop", tickedThen("card/shop", long), "more Coral 11-inch."},
		{"balloons, shorter", "card/shop", tickedThen("card/shop", short), ""},
		{"balloons, another colour", "card/shop", tickedThen("card/shop", ink), "more Ink blue 11-inch."},
		{"balloons, another colour and back", "card/shop", tickedThen("card/shop", ink, coral), ""},
		{
			"balloons, another tool",
			"card/shop",
			tickedThen("card/shop", job.Put("kit/ladder", "name", "Ladder"), job.Put("kit/ladder", "kind", "ladder"),
				job.Put("kit/ladder", "count", 2)),
			"",
		},
		{"balloons, longer, ticked by an early version", "card/shop",
			[]job.Change{job.Put("card/shop", "done", true), long}, ""},
		{"balloons, longer, not ticked", "card/shop",
			append(tickedThen("card/shop", long), job.Put("card/shop", "done", false)), "-"},
		{"balloons, longer, ticked with an unreadable list", "card/look",
			[]job.Change{job.Put("card/look", "done", true), job.Put("card/look", "stands", "?"), long}, ""},
		{"balloons, longer, and bought since", "card/shop",
			tickedThen("card/shop", long, job.Put(job.LatexKey(11, "coral"), "bought", 1000)), ""},
		{"balloons, filled at the venue instead", "card/shop",
			tickedThen("card/shop", job.Put("piece/door", "built", "site")), ""},
		{"bags, longer, and the rest not needed", "card/pack", tickedThen("card/pack", unneeded(long)...), ""},
		{"bags, longer", "card/pack", tickedThen("card/pack", long), "more Coral 11-inch"},
		{"bags, longer, and packed since", "card/pack", tickedThen("card/pack", packed(long)...), ""},
		{"car, longer", "card/load", tickedThen("card/load", long), "more Coral 11-inch"},
		{"car, longer, and packed since", "card/load", tickedThen("card/load", packed(long)...), "more Coral 11-inch"},
		{
			"car, one ladder more",
			"card/load",
			tickedThen("card/load", job.Put("kit/l", "name", "Tall ladder"), job.Put("kit/l", "kind", "ladder"),
				job.Put("kit/l", "count", 1)),
			"1 more Tall ladder",
		},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			c := cards(plan.Make(garland(3048, row.changes...)))[row.card]
			require.NotEmpty(t, c.Key)
			assert.Equal(t, row.open == "", c.Done)
			if row.open == "" || row.open == "-" {
				assert.Empty(t, c.Stood)
				return
			}
			assert.Contains(t, c.Stood, row.open)
			assert.Equal(t, c.Minutes, c.Left(), "all its work is left")
		})
	}
}

func TestStaleTickSaysWhatItCovered(t *testing.T) {
	then := plan.Make(garland(3048))
	now := plan.Make(garland(3048, tickedThen("card/shop", job.Put("piece/door", "length_mm", 4572))...))
	want := "Done for " + figureOf(then) + " balloons, but " + figureOf(now) + " are needed now: " +
		moreOf(then, now) + " more Coral 11-inch."
	assert.Equal(t, want, cards(now)["card/shop"].Stood)
	assert.Empty(t, standsOf(then, "card/look"), "this card has no list")
	for _, card := range []string{"card/shop", "card/pack", "card/load"} {
		assert.NoError(t, job.CheckChange(job.Put(card, "stands", standsOf(then, card))))
		assert.True(t, job.Helper.MayField(job.Set, card, "stands"))
	}
}

// If the list is too long for an operation, only the tick is stored.
func TestLongListIsNotStored(t *testing.T) {
	p := plan.Plan{Pack: []packing.Bag{{}}}
	for range 2000 {
		p.Pack[0].Lines = append(p.Pack[0].Lines, packing.Line{Key: "pack/latex/11/" + strings.Repeat("x", 20), Need: 1})
	}
	assert.Empty(t, standsOf(p, "card/shop"))
}

func figureOf(p plan.Plan) string { return Count(p.Balloons[0].Buy) }

func moreOf(then, now plan.Plan) string { return Count(now.Balloons[0].Buy - then.Balloons[0].Buy) }

func Count(n int) string { return strconv.Itoa(n) }

func standsOf(p plan.Plan, card string) string { return task.Stands(p.Balloons, p.Pack, card) }

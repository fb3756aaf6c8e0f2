package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
)

// How many balloons travel flat, by hand: 80 are in the piece; of 86 fewer than 7 break with odds of 99 % (binomial
// distribution at 2.5 %).
func TestBalloonsThatTravelBlownUpAreNotPackedFlat(t *testing.T) {
	site := job.Put("piece/door", "built", "site")
	none := job.Put("brief", "spare_pct", 0)
	key := job.LatexKey(11, "coral")
	for _, row := range []struct {
		name   string
		more   []job.Change
		flat   int // 0: no line
		reason string
		made   bool
	}{
		{"all made at home", nil, 6, "spares travel flat; 80 travel blown up", true},
		{"all made at home, no spares", []job.Change{none}, 0, "", true},
		{"all filled at the venue", []job.Change{site}, 86, "80 balloons in 1 piece, 6 spares", false},
		{"half of 20 clusters made ahead", []job.Change{site, job.Put("piece/door", "ahead", 10)}, 46,
			"40 balloons to fill at the venue, 6 spares; 40 travel blown up", true},
		{"nothing travels", []job.Change{job.Put("brief", "travel", "none")}, 86,
			"80 balloons in 1 piece, 6 spares", false},
	} {
		t.Run(row.name, func(t *testing.T) {
			j := garland(3048, row.more...)
			lines := packLines(plan.Make(j))
			line, there := lines[key]
			assert.Equal(t, row.flat > 0, there)
			assert.Equal(t, row.flat, line.Need)
			assert.Equal(t, row.reason, line.Reason)
			_, made := lines["pack/made/door"]
			assert.Equal(t, row.made, made)
			shop := lineOf(t, j, "latex/11/coral")
			assert.Equal(t, plan.Make(j).Balloons[0].Buy, shop.Need, "the shop lists all to buy")
			assert.Equal(t, shop.Need, shop.Buy)
		})
	}
}

// What is bought, packed or together is not bought again.
func TestShopKnowsWhatIsThere(t *testing.T) {
	key := job.LatexKey(11, "coral")
	stands := standsOf(plan.Make(garland(3048)), "card/shop")
	for _, row := range []struct {
		name string
		more []job.Change
		got  int // of 86
	}{
		{"nothing", nil, 0},
		{"some bought", []job.Change{job.Put(key, "bought", 50)}, 50},
		{"some packed", []job.Change{job.Put(key, "have", 30)}, 30},
		{"bought, then packed", []job.Change{job.Put(key, "bought", 50), job.Put(key, "have", 30)}, 50},
		{"the card is ticked", []job.Change{job.Put("card/shop", "done", true),
			job.Put("card/shop", "stands", stands)}, 86},
		{"and opened again",
			[]job.Change{job.Put("card/shop", "done", false), job.Put("card/shop", "stands", stands)}, 0},
		{"more than needed", []job.Change{job.Put(key, "bought", 100)}, 100},
	} {
		t.Run(row.name, func(t *testing.T) {
			line := lineOf(t, garland(3048, row.more...), "latex/11/coral")
			assert.Equal(t, []int{86, row.got, max(0, 86-row.got)}, []int{line.Need, line.Got, line.Buy})
		})
	}
}

func standsOn(kind string, more ...job.Change) []job.Change {
	return append([]job.Change{job.Put("kit/s", "kind", kind), job.Put("kit/s", "name", "Stands"),
		job.Put("kit/s", "count", 3)}, more...)
}

// What carries columns, digits and walls is on the list: from the kit where it is there, else as a line of its own.
func TestWhatCarriesAPieceIsPacked(t *testing.T) {
	columns := piece("aisle", "column", map[string]any{"height_mm": 1800, "count": 4, "recipe": "2x11@9", "accents": 0,
		"colours": shares("coral", 1.0)})
	named := job.Put("piece/aisle", "frame", "s")
	digits := piece("years", "numbers", map[string]any{"digits": "75", "height_mm": 1000, "size_in": 5, "to_in": 4.5,
		"colours": shares("coral", 1.0)})
	wall := piece("stage", "wall", map[string]any{"width_mm": 2400, "height_mm": 1800, "recipe": "2x11@9.5",
		"accents": 0, "colours": shares("coral", 1.0)})
	grass := []job.Change{job.Put("brief", "place", "outdoors"), job.Put("brief", "floor", "grass")}
	for _, row := range []struct {
		name    string
		changes [][]job.Change
		want    map[string]int
	}{
		{"columns without stands", [][]job.Change{columns}, map[string]int{"pack/tool/pole": 4, "pack/tool/level": 1}},
		{"three stands for four columns", [][]job.Change{columns, standsOn("pole")},
			map[string]int{"pack/tool/pole": 1, "pack/kit/s": 3, "pack/tool/clamps": 0, "pack/supply/cable-ties": 0}},
		{"the same, named", [][]job.Change{columns, standsOn("pole", named)},
			map[string]int{"pack/tool/pole": 1, "pack/kit/s": 3, "pack/tool/clamps": 0, "pack/supply/cable-ties": 0}},
		{"a frame that carries the columns", [][]job.Change{columns, standsOn("frame", named)},
			map[string]int{"pack/tool/pole": 0, "pack/kit/s": 3, "pack/tool/clamps": 4}},
		{"stands that nothing needs", [][]job.Change{digits, standsOn("pole")},
			map[string]int{"pack/tool/pole": 0, "pack/kit/s": 0, "pack/tool/digit-frame": 2}},
		{"digits", [][]job.Change{digits}, map[string]int{"pack/tool/digit-frame": 2, "pack/tool/level": 1}},
		{"digits of the kit", [][]job.Change{digits, standsOn("digits")},
			map[string]int{"pack/tool/digit-frame": 0, "pack/kit/s": 2}},
		{"a wall", [][]job.Change{wall}, map[string]int{"pack/tool/wall-frame": 1, "pack/tool/level": 1}},
		{"a wall on a frame", [][]job.Change{wall, standsOn("frame", job.Put("piece/stage", "frame", "s"))},
			map[string]int{"pack/tool/wall-frame": 0, "pack/kit/s": 3}},
		{"a wall on hooks hangs by its width", [][]job.Change{wall, {job.Put("brief", "fixing", "removable")}},
			map[string]int{"pack/supply/hooks": 4}},
		{"on grass", [][]job.Change{columns, grass},
			map[string]int{"pack/tool/stakes": 16, "pack/tool/mallet": 1, "pack/tool/shade": 1}},
		{"grass in a hall", [][]job.Change{columns, grass[1:]},
			map[string]int{"pack/tool/stakes": 0, "pack/tool/mallet": 0, "pack/tool/shade": 0}},
	} {
		t.Run(row.name, func(t *testing.T) {
			var changes []job.Change
			for _, some := range row.changes {
				changes = append(changes, some...)
			}
			lines := packLines(plan.Make(made(changes...)))
			for key, need := range row.want {
				line, there := lines[key]
				assert.Equal(t, need > 0, there, key)
				assert.Equal(t, need, line.Need, key)
			}
		})
	}
}

// A wall's frame comes with weights, its net with cord.
func TestWhatCarriesAWallComesWithWhatHoldsIt(t *testing.T) {
	wall := piece("stage", "wall", map[string]any{"width_mm": 2400, "height_mm": 1800, "recipe": "2x11@9.5", "accents": 0,
		"colours": shares("coral", 1.0)})
	for _, fixing := range []string{"nothing", "removable", "tie", "any"} {
		line := packLines(plan.Make(made(append(wall, job.Put("brief", "fixing", fixing))...)))["pack/tool/wall-frame"]
		assert.Contains(t, line.Reason, "a frame with weights for its feet", fixing)
		assert.Equal(t, fixing == "tie", strings.Contains(line.Reason, "a net with cord"), fixing)
	}
}

// Where nothing travels, the list is what must be at hand.
func TestNothingTravelsWithoutACar(t *testing.T) {
	p := plan.Make(garland(3048, job.Put("brief", "travel", "none")))
	lines := packLines(p)
	float := piece("float", "bouquets", map[string]any{"count": 3, "each": 4, "gas": "helium", "to_in": 11,
		"colours": shares("coral", 1.0)})
	assert.Equal(t, 2, packLines(plan.Make(made(float...)))["pack/tool/straps"].Need, "a cylinder travels strapped")
	atHome := packLines(plan.Make(made(append(float, job.Put("brief", "travel", "none"))...)))
	assert.Equal(t, 1, atHome["pack/tool/straps"].Need, "it stands tied at home too")
	for _, key := range []string{"pack/tool/trolley", "pack/supply/clear-bags", "pack/supply/labels",
		"pack/made/door"} {
		assert.NotContains(t, lines, key)
	}
	for _, bag := range p.Pack {
		assert.NotContains(t, bag.Name, "car")
	}
	assert.Contains(t, lines, "pack/tool/floor-sheet")
	assert.Contains(t, packLines(plan.Make(garland(3048))), "pack/tool/trolley")
}

// A line that is set aside stays on the list, and nothing is left to pack of it.
func TestUnneededLines(t *testing.T) {
	key := "pack/supply/shine-spray"
	of := func(changes ...job.Change) packing.Line {
		line, there := packLines(plan.Make(garland(3048, changes...)))[key]
		require.True(t, there)
		return line
	}
	line := of(job.Put(key, "unneeded", true))
	assert.True(t, line.Unneeded)
	assert.Zero(t, line.More())
	assert.Equal(t, -2, of(job.Put(key, "unneeded", true), job.Put(key, "have", 2)).More(), "what is packed comes out")
	assert.Positive(t, of(job.Put(key, "unneeded", false)).More(), "undone")
	ladder := "pack/tool/trolley"
	assert.Zero(t, packLines(plan.Make(garland(3048, job.Put(ladder, "unneeded", true))))[ladder].Out(),
		"it need not come home")
	for _, l := range shopOf(garland(3048, job.Put(key, "unneeded", true))) {
		assert.NotEqual(t, key, l.Key, "nobody buys it")
	}
	longer := packLines(plan.Make(garland(9000, job.Put(key, "unneeded", true))))[key]
	assert.True(t, longer.Unneeded, "it survives a change of the design")
}

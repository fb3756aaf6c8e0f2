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

// lineOf returns the line of the shop list with the id.
func lineOf(t *testing.T, j job.Job, id string) packing.ShopLine {
	t.Helper()
	for _, l := range shopOf(j) {
		if l.ID == id {
			return l
		}
	}
	require.FailNow(t, "not on the list", id)
	return packing.ShopLine{}
}

// The list buys the same bags as the calculator for 80 coral 11-inch.
func TestTheShopListBuysAsTheCalculatorDoes(t *testing.T) {
	none := job.Put("brief", "spare_pct", 0)
	for _, row := range []struct {
		name, own string
		id        string // of the own price
		more      []job.Change
		words     string
		cents     int
		priced    bool
	}{
		{"the usual bags", "", "latex/11", nil, "1 bag of 100, 20 left over", 0, false},
		{"own bags", "72, 12", "latex/11", nil, "1 bag of 72 and 1 bag of 12, 4 left over", 0, false},
		{"an expensive large bag", "100 for 30, 40 for 9,90", "latex/11", nil, "2 bags of 40, 0 left over", 1980, true},
		{"a cheap large bag", "100 for 9.90, 50 for 5.60", "latex/11", nil, "1 bag of 100, 20 left over", 990, true},
		{"a price of one colour", "10 for 1", "latex/11/coral", []job.Change{job.Put("own/prices/latex/11", "bags",
			"100 for 9.90")}, "8 bags of 10, 0 left over", 800, true},
		{"an unreadable price is ignored", "a crate", "latex/11", nil, "1 bag of 100, 20 left over", 0, false},
		{"some are packed", "25 for 3.20", "latex/11", []job.Change{job.Put("pack/latex/11/coral", "have", 40)},
			"2 bags of 25, 10 left over", 640, true},
		{"all are packed", "25 for 3.20", "latex/11", []job.Change{job.Put("pack/latex/11/coral", "have", 80)}, "", 0, true},
	} {
		t.Run(row.name, func(t *testing.T) {
			changes := append(row.more, none, job.Put("own/prices/"+row.id, "bags", row.own))
			line := lineOf(t, garland(3048, changes...), "latex/11/coral")
			assert.Equal(t, row.words, line.Words())
			assert.Equal(t, row.priced, line.Priced)
			assert.Equal(t, row.cents, line.Cents)
			if row.priced {
				bags := compute(t, "bags", map[string]string{"need": Count(line.Buy), "bags": packing.BagsText(line.Offers, true)})
				assert.Equal(t, bags.Outputs["bags"], line.Bags)
				assert.InDelta(t, bags.Number("cost")*100, float64(line.Cents), 1e-6)
			}
		})
	}
}

// Helium, its ribbon and gel, and stands that the kit lacks are on the list. What the kit has is not.
func TestHeliumAndMissingStandsAreOnTheList(t *testing.T) {
	changes := append(piece("float", "bouquets", map[string]any{"count": 3, "each": 4, "gas": "helium", "to_in": 11,
		"colours": shares("coral", 1.0)}), piece("aisle", "column", map[string]any{"height_mm": 1800, "count": 4,
		"recipe": "2x11@9", "accents": 0, "colours": shares("coral", 1.0)})...)
	changes = append(changes, standsOn("pole")...)
	for _, id := range []string{"helium/cylinder", "helium/ribbon", "tool/pole"} {
		line := lineOf(t, made(changes...), id)
		assert.Equal(t, line.Need, line.Buy, id)
		assert.NoError(t, job.CheckChange(job.Put("own/prices/"+id, "bags", "1 for 9")), id)
	}
	assert.Equal(t, 1, lineOf(t, made(changes...), "tool/pole").Buy, "the kit has three of four")
	own := append(changes, job.Put("kit/gas", "kind", "cylinder"), job.Put("kit/gas", "name", "Gas"),
		job.Put("kit/gas", "count", 3), job.Put("kit/s", "count", 4))
	for _, l := range shopOf(made(own...)) {
		assert.NotContains(t, []string{"helium/cylinder", "tool/pole"}, l.ID)
	}
}

// Things that are used up are bought and can have a price. Kit is not bought.
func TestUsedUpThingsAreBought(t *testing.T) {
	j := garland(3048, job.Put("own/prices/tie/260", "bags", "100 for 8"),
		job.Put("own/prices/supply/shine-spray", "bags", "1 for 7.50"))
	lines := shopOf(j)
	ids := map[string]bool{}
	for _, l := range lines {
		ids[l.ID] = true
		assert.False(t, l.Kit, l.Name)
	}
	assert.True(t, ids["tie/260"] && ids["latex/11/coral"] && ids["supply/bin-bags"], "%v", ids)
	ties, shine := lineOf(t, j, "tie/260"), lineOf(t, j, "supply/shine-spray")
	assert.Equal(t, 800*((ties.Need+99)/100), ties.Cents)
	assert.Equal(t, 750*shine.Need, shine.Cents)
	cents, unpriced := packing.Cost(lines)
	assert.Equal(t, ties.Cents+shine.Cents, cents)
	assert.Equal(t, len(lines)-2, unpriced)
}

// A helper's plan never depends on the owner's prices.
func TestPricesNeverReachThePlan(t *testing.T) {
	j := garland(3048, job.Put("brief", "spare_pct", 0), job.Put("own/prices/latex/11", "bags", "33 for 7.77"),
		job.Put("choice/bags/latex/11", "pick", "33"))
	p := plan.Make(j)
	text := asJSON(t, p)
	assert.NotContains(t, text, "7.77")
	helper := j
	helper.Private, helper.Prices = job.NewState(), nil
	assert.Equal(t, text, asJSON(t, plan.Make(helper)))
	assert.Equal(t, "3 bags of 33, 19 left over", lineOf(t, helper, "latex/11/coral").Words())
	assert.Zero(t, lineOf(t, helper, "latex/11/coral").Cents)
}

func TestReadBags(t *testing.T) {
	for _, row := range []struct {
		typed, written string // written is "" if it is refused
	}{
		{"100 for 9.90, 50 for 5.60", "100 for 9.90, 50 for 5.60"}, {"100:9,90; 50 @ 5", "100 for 9.90, 50 for 5.00"},
		{" 1 at 4 ", "1 for 4.00"},
		{"100, 50;25", "100, 50, 25"}, {"100", "100"}, {"", ""}, {"a crate", ""}, {"0", ""}, {"-5", ""},
		{"100 for much", ""}, {"1000000", ""}, {"100 for -3", ""},
	} {
		bags, priced, err := packing.ReadBags(row.typed)
		if row.written == "" {
			assert.Error(t, err, row.typed)
			continue
		}
		require.NoError(t, err, row.typed)
		assert.Equal(t, row.written, packing.BagsText(bags, priced))
	}
}

func FuzzReadBagsReadsWhatItWrites(f *testing.F) {
	f.Add("100 for 9.90, 50 for 5.60")
	f.Add("100, 50")
	f.Add("1:2@3")
	f.Fuzz(func(t *testing.T, typed string) {
		bags, priced, err := packing.ReadBags(typed)
		if err != nil {
			assert.NotContains(t, strings.TrimSpace(err.Error()), "\n")
			return
		}
		again, still, err := packing.ReadBags(packing.BagsText(bags, priced))
		require.NoError(t, err)
		assert.Equal(t, priced, still)
		assert.Equal(t, bags, again)
	})
}

func shopOf(j job.Job) []packing.ShopLine {
	p := plan.Make(j)
	return packing.Shop(j, p.Balloons, p.Pack)
}

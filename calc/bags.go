package calc

import (
	"garlandry/calc/stock"
)

var bagsCalculator = Calculator{
	Name: "bags", Title: "Cheapest bags", Group: groupBuying,
	Purpose: "Which bags cover a need for the least money",
	Inputs: []Input{
		{Key: "need", Label: "Needed", Kind: KindCount, Min: 0, Max: stock.LargestNeed, Required: true, Example: "219",
			Help: "Balloons of one size and colour, spares among them."},
		{Key: "have", Label: "In the cupboard", Kind: KindCount, Min: 0, Max: stock.LargestNeed, Default: "0", Example: "40",
			Help: "Good ones of the same size and colour that are there already."},
		{Key: "bags", Label: "Bags on offer", Kind: KindBags, Required: true, Example: "100:9.90, 50:5.60, 25:3.20",
			Help: "How many a bag holds, a colon, its price; commas between: 100:9.90, 50:5.60."},
	},
	Outputs: []Output{
		{"buy", "To buy", "How many of which bags", KindText, true},
		{"bags", "Bags", "How many of each kind, in the order given", KindCounts, false},
		{"cost", "Cost", "What they cost together", KindMoney, true},
		{"left", "Left over", "Balloons left when the need is met", KindCount, false},
	},
	Example: Example{
		Story: "Reading room reopening: 219 blush, 40 in the cupboard. 179 are missing: 2 of 100 cost 19.80; 100 + 50 + " +
			"25 are 175, too few",
		Inputs: []Entry{{Key: "need", Text: "219"}, {Key: "have", Text: "40"},
			{Key: "bags", Text: "100:9.90, 50:5.60, 25:3.20"}},
		Expect: []Expectation{{Key: "bags", Text: "2, 0, 0"}, {Key: "cost", Value: 19.8, Within: 1e-9},
			{Key: "left", Value: 21}},
	},
	Run: runBags,
}

func runBags(v Values, result *Result) error {
	need, have, offers := v.Count("need"), v.Count("have"), v.Bags("bags")
	p, err := stock.Bags(need, have, offers)
	if err != nil {
		return v.blame("bags", err)
	}
	result.use("bags/cheapest")
	result.figures("cost",
		float64(p.CostCents)/100)
	result.counts("left",
		p.Left)
	result.Outputs["bags"] = p.Counts
	result.step("Missing", "{0} − {0}", "{0}", float64(need), float64(have), float64(max(need-have, 0)))
	buy := ""
	held, names := []int{have}, []string{"there"}
	for i, bag := range offers {
		if p.Counts[i] > 0 {
			if buy != "" {
				buy += ", "
			}
			buy += v.say("{0} × {0}", float64(p.Counts[i]), float64(bag.Holds))
			held, names = append(held, p.Counts[i]*bag.Holds), append(names,
				v.say("{0} × {0}", float64(p.Counts[i]), float64(bag.Holds)))
			result.step(v.say("{bag|bags} of {0}", float64(p.Counts[i]), float64(bag.Holds)), "{0} × {money}", "{money}",
				float64(p.Counts[i]), float64(bag.PriceCents)/100, float64(p.Counts[i]*bag.PriceCents)/100)
		}
	}
	if buy == "" {
		buy = "nothing"
	}
	result.Outputs["buy"] = buy
	result.Drawing = v.drawBar("What the cupboard and the bags hold", held, names)
	result.step("Cost", "no other bags that cover the need cost less", "{money}", float64(p.CostCents)/100)
	result.step("Left over", "{0} + {0} − {0}", "{0}", float64(have), float64(p.Bought), float64(need), float64(p.Left))
	if need <= have {
		result.note("Nothing to buy: the cupboard covers it. Stretch a few: old latex tears.")
	}
	return nil
}

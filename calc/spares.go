package calc

import (
	"garlandry/calc/stock"
)

var sparesCalculator = Calculator{
	Name: "spares", Title: "Spares", Group: groupBuying,
	Purpose: "How many to buy so that enough survive",
	Inputs: []Input{
		{Key: "need", Label: "Needed", Kind: KindCount, Min: 0, Max: stock.LargestNeed, Required: true, Example: "200",
			Help: "Balloons of one size and colour that must hang at the end."},
		{
			Key:     "fail",
			Label:   "Breaks",
			Kind:    KindPercent,
			Min:     0,
			Max:     stock.LargestFailPct,
			Default: "5 %",
			Example: "3%",
			Help: "How many in a hundred burst or come out wrong: 2 to 3 with practised hands, 5 with beginners. " +
				"More outdoors, on grass, in sun, with mirror finishes. Or what you counted: 9 of 200.",
		},
		{Key: "sure", Label: "How sure", Kind: KindPercent, Min: 1, Max: stock.LargestSurePct,
			Default: "99 %", Example: "99%",
			Help: "How sure you want to be that they last: 99 means once in a hundred jobs you run short."},
	},
	Outputs: []Output{
		{"buy", "Buy", "How many to have in hand at the start", KindCount, true},
		{"spares", "Spares", "More than needed", KindCount, true},
	},
	Cautions: []string{},
	Example: Example{
		Story: "Reading room reopening: 200 blush 11-inch, 5 % break, 99 % sure. A table of the negative " +
			"binomial quantile gives 219",
		Inputs: []Entry{{Key: "need", Text: "200"}, {Key: "fail", Text: "5%"}, {Key: "sure", Text: "99"}},
		Expect: []Expectation{{Key: "buy", Value: 219}, {Key: "spares", Value: 19}},
	},
	Run: runSpares,
}

func runSpares(v Values, result *Result) error {
	need, fail, sure := v.Count("need"), v.Number("fail"), v.Number("sure")
	buy, err := stock.Spares(need, fail, sure)
	if err != nil {
		return v.blame("need", err)
	}
	result.use("spares/quantile")
	result.useIf(v.assumed("fail"), "spares/breakage")
	result.counts("buy spares",
		buy, buy-need)
	result.step("Needed", "must be good at the end", "{0}", float64(need))
	result.step("On average", "{0} / (1 − {percent}) are used up", "{1}", float64(need), fail, float64(need)/(1-fail/100))
	result.step("Buy", "the fewest with at least {0} good in {percent} of jobs", "{0}", float64(need), sure, float64(buy))
	for _, n := range []int{buy - 1, buy} {
		if got, err := stock.Sure(need, n, fail); err == nil && n >= need {
			result.step("With "+whole(n), "binomial chance that enough are good", "{2} %", got)
		}
	}
	result.Drawing = v.drawBar("What is needed and what is spare", []int{need, buy - need}, []string{"needed", "spare"})
	result.note(
		"This covers single balloons that break, not a whole bad bag. Open one bag of each colour before the day.",
	)
	return nil
}

package calc

import (
	"garlandry/calc/stock"
)

var splitCalculator = Calculator{
	Name: "split", Title: "Split over colours", Group: groupBuying,
	Purpose: "Whole shares of a total that add up exactly",
	Inputs: []Input{
		{Key: "total", Label: "To share out", Kind: KindCount, Min: 0, Max: stock.LargestNeed, Required: true, Example: "96",
			Help: "Balloons, duplets or clusters in all."},
		{
			Key:      "weights",
			Label:    "Shares",
			Kind:     KindWeights,
			Required: true,
			Example:  "coral 3, ink blue 2, sand 1",
			Help: "A colour and its share, with commas between: coral 3, ink blue 2, sand 1. Or numbers alone: 3, 2, 1. " +
				"They need not add up to anything.",
		},
	},
	Outputs: []Output{{"shares", "Shares", "Whole numbers in the order given, adding up to the total", KindCounts, true}},
	Example: Example{
		Story:  "Seats for 53 000, 24 000 and 23 000 votes, 7 seats: the known answer by largest remainder is 4, 2, 1",
		Inputs: []Entry{{Key: "total", Text: "7"}, {Key: "weights", Text: "coral 53000, sand 24000, blush 23000"}},
		Expect: []Expectation{{Key: "shares", Text: "4, 2, 1"}},
	},
	Run: runSplit,
}

func runSplit(v Values, result *Result) error {
	total, weights := v.Count("total"), v.Weights("weights")
	numbers := make([]float64, len(weights))
	sum := 0.0
	for i, w := range weights {
		numbers[i] = w.Share
		sum += w.Share
	}
	shares, err := stock.Split(total, numbers)
	if err != nil {
		return v.blame("weights", err)
	}
	result.Outputs["shares"] = shares
	result.use("split/remainder", "split/all")
	names := make([]string, len(weights))
	for i, w := range weights {
		names[i] = w.Name
		name := w.Name
		if name == "" {
			name = "Share " + whole(i+1)
		}
		quota := 0.0
		if sum > 0 {
			quota = float64(total) * w.Share / sum
		}
		result.step(name, "{0} × {3} / {3} = {2}", "{0}", float64(total), w.Share, sum, quota, float64(shares[i]))
		if shares[i] == 0 && w.Share > 0 && total > 0 {
			result.note("There are too few to give " + name + " even one.")
		}
	}
	result.Drawing = v.drawBar("The shares side by side", shares, names)
	result.step("Check", "sum of the shares", "{0}", float64(total))
	return nil
}

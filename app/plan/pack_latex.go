package plan

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/latex"
	"garlandry/calc/stock"
)

// latexRule packs balloons by size and colour, with their spares.
var latexRule = packRule{family: "latex", bag: "bag/balloons", name: latexName, lines: func(d *draft) []packed {
	var lines []packed
	for _, b := range d.plan.Balloons {
		colour := b.Colour
		pct := d.failPct(b.SizeIn, b.Colour)
		source := Source{Text: "breakage " + number(pct) + " %, odds of enough by the exact negative binomial distribution", Mark: CommonPractice}
		if d.job.Brief.SparePct != nil {
			source = Source{Text: "your own breakage of " + number(pct) + " %, odds of enough by the exact negative binomial distribution", Mark: Measured}
		}
		lines = append(lines, packed{PackLine: PackLine{
			Key: b.Key, Name: colour.Name + " " + inch(b.SizeIn), Unit: unitOf(b.Buy, "balloons"), Need: b.Buy,
			Reason: count(b.Need, "balloon") + " in " + count(len(b.Pieces), "piece") + ", " + count(b.Spares, "spare") + bagWords(b),
			Colour: &colour, SizeIn: b.SizeIn, Source: source,
		}})
	}
	return lines
}}

// bagWords says which bags of the usual sizes hold what is to be bought with the fewest left over, then in the fewest bags,
// see [stock.Bags]; nothing for a size that is in no table. Prices are not known here.
func bagWords(b BalloonLine) string {
	size, _ := latex.Find(b.SizeIn)
	offers := make([]stock.Bag, len(size.BagsOf))
	for i, holds := range size.BagsOf {
		offers[i] = stock.Bag{Holds: holds, PriceCents: holds}
	}
	bought, err := stock.Bags(min(b.Buy, stock.LargestNeed), 0, offers)
	if err != nil || b.Buy > stock.LargestNeed {
		return ""
	}
	words := ""
	for i := len(offers) - 1; i >= 0; i-- {
		if n := bought.Counts[i]; n > 0 {
			if words != "" {
				words += " and "
			}
			words += count(n, "bag") + " of " + strconv.Itoa(offers[i].Holds)
		}
	}
	return "; " + words + ", " + strconv.Itoa(bought.Left) + " left over"
}

// latexName names a line that is gone: its colour may have left the palette, but the job still knows what it was called.
func latexName(j job.Job, id string) string {
	size, colour, _ := strings.Cut(id, "/")
	if colour == undecided().ID {
		return undecided().Name + " " + size + "-inch"
	}
	return text(j, "colour/"+colour, "name", colour) + " " + size + "-inch"
}

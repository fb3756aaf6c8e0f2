package packing

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// latexRule packs balloons by size and colour, with their spares.
var latexRule = rule{family: "latex", bag: "bag/balloons", name: latexName, lines: func(d *rigging.Rig) []packed {
	var lines []packed
	for _, b := range d.Balloons {
		colour := b.Colour
		pct := d.FailPct(b.SizeIn, b.Colour)
		source := figures.Source{Text: "breakage " + phrase.Number(pct) + " %, odds of enough by the exact negative binomial distribution",
			Mark: figures.CommonPractice}
		if d.Job.Brief.SparePct != nil {
			source = figures.Source{
				Text: "your own breakage of " + phrase.Number(pct) + " %, odds of enough by the exact negative binomial distribution",
				Mark: figures.Measured,
			}
		}
		lines = append(lines, packed{Line: Line{
			Key: b.Key, Name: colour.Name + " " + phrase.Inch(b.SizeIn), Unit: phrase.Unit(b.Buy, "balloons"), Need: b.Buy,
			Reason: phrase.Count(b.Need, "balloon") + " in " + phrase.Count(
				len(b.Pieces),
				"piece",
			) + ", " + phrase.Count(b.Spares, "spare") + bagWords(d, b),
			Colour: &colour, SizeIn: b.SizeIn, Source: source,
		}})
	}
	return lines
}}

// bagWords says which bags of the usual sizes hold what is to be bought, or what the bags hold that the owner buys: how
// many of these are cheapest only the owner may know, see [Shop].
func bagWords(d *rigging.Rig, b count.BalloonLine) string {
	seen := d.Job
	seen.Prices = nil
	line := ShopLine{ID: job.KeyPath(b.Key), Buy: b.Buy}
	line.offers(seen)
	if line.From != "" {
		return "; in bags of " + BagsText(line.Offers, false)
	}
	line.choose()
	if words := line.Words(); words != "" {
		return "; " + words
	}
	return ""
}

// latexName names a line that is gone: its colour may have left the palette, but the job still knows what it was
// called.
func latexName(j job.Job, id string) string {
	size, colour, _ := strings.Cut(id, "/")
	if colour == count.Undecided().ID {
		return count.Undecided().Name + " " + size + "-inch"
	}
	return phrase.Field(j, "colour/"+colour, "name", colour) + " " + size + "-inch"
}

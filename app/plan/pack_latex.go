package plan

import (
	"strings"

	"garlandry/app/job"
)

// latexRule packs balloons by size and colour, with their spares.
var latexRule = packRule{family: "latex", bag: "bag/balloons", name: latexName, lines: func(d *Rig) []packed {
	var lines []packed
	for _, b := range d.Balloons {
		colour := b.Colour
		pct := d.failPct(b.SizeIn, b.Colour)
		source := Source{Text: "breakage " + number(pct) + " %, odds of enough by the exact negative binomial distribution",
			Mark: CommonPractice}
		if d.job.Brief.SparePct != nil {
			source = Source{
				Text: "your own breakage of " + number(pct) + " %, odds of enough by the exact negative binomial distribution",
				Mark: Measured,
			}
		}
		lines = append(lines, packed{PackLine: PackLine{
			Key: b.Key, Name: colour.Name + " " + inch(b.SizeIn), Unit: unitOf(b.Buy, "balloons"), Need: b.Buy,
			Reason: count(b.Need, "balloon") + " in " + count(
				len(b.Pieces),
				"piece",
			) + ", " + count(b.Spares, "spare") + bagWords(d, b),
			Colour: &colour, SizeIn: b.SizeIn, Source: source,
		}})
	}
	return lines
}}

// bagWords says which bags of the usual sizes hold what is to be bought, or what the bags hold that the owner buys: how
// many of these are cheapest only the owner may know, see [Shop].
func bagWords(d *Rig, b BalloonLine) string {
	seen := d.job
	seen.Prices = nil
	line := ShopLine{ID: strings.TrimPrefix(b.Key, "pack/"), Buy: b.Buy}
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
	if colour == undecided().ID {
		return undecided().Name + " " + size + "-inch"
	}
	return text(j, "colour/"+colour, "name", colour) + " " + size + "-inch"
}

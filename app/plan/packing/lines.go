package packing

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// latexLines packs the balloons that travel flat, by size and colour: those filled at the venue, and the spares. Where
// nothing travels, that is all of them. A line with nothing to pack is left out; [Shop] still lists all to buy.
func latexLines(d *rigging.Rig) []packed {
	var lines []packed
	for i := range d.Balloons {
		b := &d.Balloons[i]
		full := 0
		if d.Travels() {
			for _, c := range d.Pieces {
				full += c.BroughtFull(b.SizeIn, b.Colour.ID)
			}
		}
		flat := b.Buy - min(full, b.Need)
		if flat <= 0 {
			continue
		}
		line := latexLine(b, flat)
		if full > 0 {
			line.Reason = flatWords(b, min(full, b.Need))
		}
		pct := d.FailPct(b.SizeIn, b.Colour)
		line.Source = figures.Source{Text: "breakage " + phrase.Number(pct) +
			" %, odds of enough by the exact negative binomial distribution", Mark: figures.CommonPractice}
		if d.Job.Brief.SparePct != nil {
			line.Source.Text, line.Source.Mark = "your own "+line.Source.Text, figures.Measured
		}
		lines = append(lines, packed{Line: line})
	}
	return lines
}

// Latex returns the line for all balloons of a size and colour that are bought.
func Latex(b *count.BalloonLine) Line { return latexLine(b, b.Buy) }

// latexLine returns a line of n balloons of a size and colour.
func latexLine(b *count.BalloonLine, n int) Line {
	return Line{Key: b.Key, Name: b.Colour.Name + " " + phrase.Inch(b.SizeIn), Unit: phrase.Unit(n, "balloons"),
		Need: n, Reason: phrase.Count(b.Need, "balloon") + " in " + phrase.Count(len(b.Pieces), "piece") + ", " +
			phrase.Count(b.Spares, "spare"),
		Colour: &b.Colour, SizeIn: b.SizeIn}
}

// flatWords says why balloons travel flat where others of their size and colour travel blown up.
func flatWords(b *count.BalloonLine, full int) string {
	words := "spares travel flat"
	if site := b.Need - full; site > 0 {
		words = phrase.Count(site, "balloon") + " to fill at the venue, " + phrase.Count(b.Spares, "spare")
	}
	return words + "; " + strconv.Itoa(full) + " travel blown up"
}

// latexName names a line that is gone. The job still knows the name of a colour that has left the palette.
func latexName(j job.Job, id string) string {
	size, colour, _ := strings.Cut(id, "/")
	if colour == count.Undecided().ID {
		return count.Undecided().Name + " " + size + "-inch"
	}
	return phrase.Field(j, "colour/"+colour, "name", colour) + " " + size + "-inch"
}

// madeLines packs what is made at home: sections and clusters in big clear bags, labelled with piece and section.
func madeLines(d *rigging.Rig) []packed {
	var lines []packed
	if !d.Travels() {
		return nil
	}
	room := d.Figures.Row("bag/clusters")
	add := func(id, name string, need int, unit, reason string) {
		lines = append(lines, packed{Line: Line{Key: job.PackKey("made", id), Name: name + ", ready made",
			Unit: phrase.Unit(need, unit), Need: need, Source: room.Source, Reason: reason}})
	}
	for _, c := range d.Pieces {
		brought := int(float64(c.AtHome()*float64(c.Balloons)) + 0.5)
		for i := range c.Layers {
			l := &c.Layers[i]
			if n := layerBags(d, l); n > 0 {
				brought -= l.Balloons
				add("layer/"+l.ID, l.Name+" for "+c.Piece.Name, n, "bags",
					phrase.Count(l.Clusters, "cluster")+"; label each bag with its piece and layer")
			}
		}
		switch {
		case brought == 0:
		case c.InSections():
			add(c.Piece.ID, c.Piece.Name, bagsFor(d, c), "sections", phrase.Count(c.Clusters, "cluster")+" joined into "+
				phrase.Count(len(c.Sections), "section")+"; label each with its piece and number")
		default:
			add(c.Piece.ID, c.Piece.Name, bagsFor(d, c), "bags", phrase.Count(brought, "balloon")+", about "+
				volumeText(figures.RoundUpTo(d.HomeL(c)-d.LayersHomeL(c), 10), d.Units)+
				"; label each bag with piece and section")
		}
	}
	return lines
}

// layerBags returns how many big clear bags a layer takes: 0 if it is made on site.
func layerBags(d *rigging.Rig, l *count.LayerCount) int {
	if l.OnSite {
		return 0
	}
	return figures.RoundUp(d.LayerL(l) / d.Figures.Get("bag/clusters"))
}

func madeGone(j job.Job, id string) string {
	if strings.HasPrefix(id, "layer/") {
		return phrase.Field(j, id, "name", (&job.Layer{}).Called()) + ", ready made"
	}
	return phrase.Field(j, "piece/"+id, "name", id) + ", ready made"
}

// bagsFor returns how many big clear bags a piece made at home takes: one for each section, else by volume.
func bagsFor(d *rigging.Rig, c *count.Counted) int {
	if c.InSections() {
		return len(c.Sections)
	}
	return figures.RoundUp((d.HomeL(c) - d.LayersHomeL(c)) / d.Figures.Get("bag/clusters"))
}

// kitLines packs the user's own kit, except the car, and frames and stands that carry nothing.
func kitLines(d *rigging.Rig) []packed {
	var lines []packed
	stands := [...]rigging.Uprights{d.Uprights("pole"), d.Uprights("digits")}
	for _, k := range d.Job.Kit {
		line := Line{Key: job.PackKey("kit", k.ID), Name: k.Name, Kit: true, Need: k.Count, Reason: "from your kit",
			Source: figures.Source{Text: "your kit", Mark: figures.Measured}}
		bag := "bag/tools"
		switch k.Kind {
		case "car":
			continue
		case "frame":
			piece, used := d.OnFrame(k.ID)
			if !used {
				continue
			}
			line.Reason = carries(k.Count) + piece
			bag = "bag/frames"
		case "pole", "digits":
			line.Need = stands[0].Used[k.ID] + stands[1].Used[k.ID]
			if piece, used := d.OnFrame(k.ID); used {
				line.Reason = carries(line.Need) + piece
			}
			bag = "bag/frames"
		case "pump":
			line.Reason = pumpWords(d, k)
			bag = "bag/air"
		case "ladder":
			bag = "bag/loose"
		default:
			if rigging.IsSign(k) || rigging.IsCover(k) {
				bag = "bag/frames"
			}
		}
		if line.Need > 0 {
			lines = append(lines, packed{bag, line})
		}
	}
	return lines
}

// carries begins the reason for so many of a frame or stand.
func carries(n int) string {
	if n > 1 {
		return "carry "
	}
	return "carries "
}

// pumpWords says what a pump of the kit is for where there is no power at the venue.
func pumpWords(d *rigging.Rig, k job.Kit) string {
	switch {
	case d.Job.Brief.Power != "none":
		return "from your kit"
	case rigging.OnBattery(k):
		return "there is no power at the venue: charge it the day before"
	case d.BulkHomeL() > 0:
		return "for filling at home; there is no power at the venue"
	}
	return "of use only if it runs on a battery: there is no power at the venue"
}

func kitGone(j job.Job, id string) string { return phrase.Field(j, "kit/"+id, "name", id) }

// addedLines packs the lines the user wrote.
func addedLines(d *rigging.Rig) []packed {
	var lines []packed
	for _, a := range d.Job.Added {
		if a.List == "pack" {
			lines = append(lines, packed{bagNamed(a.Bag), Line{Key: job.PackKey("added", a.ID), Name: a.Text,
				Need: max(1, a.Count), Reason: "your own line",
				Source: figures.Source{Text: "your own line", Mark: figures.Measured}}})
		}
	}
	return lines
}

func addedGone(j job.Job, id string) string { return phrase.Field(j, "added/"+id, "text", id) }

package packing

import (
	"strconv"
	"strings"

	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// tieNeed packs the 260s used as ties, with spares.
func tieNeed(d *rigging.Rig) (int, string, *figures.Source) {
	n := d.WithSpares(d.Ties, d.BreakagePct())
	return n, phrase.Count(d.Ties, "tie") + " in the pieces, " + phrase.Count(n-d.Ties, "spare"), &figures.Usual
}

// clearBagNeed packs big clear bags for what is made at home.
func clearBagNeed(d *rigging.Rig) (int, string, *figures.Source) {
	room := d.Figures.Row("bag/clusters")
	sections, rest := 0, 0
	for _, c := range d.Pieces {
		switch {
		case !d.Travels():
		case c.InSections():
			sections += bagsFor(d, c)
		default:
			rest += bagsFor(d, c)
		}
		for i := range c.Layers {
			if d.Travels() {
				rest += layerBags(d, &c.Layers[i])
			}
		}
	}
	var parts []string
	if sections > 0 {
		parts = append(parts, strconv.Itoa(sections)+" long enough for a section")
	}
	if rest > 0 {
		parts = append(parts, strconv.Itoa(rest)+" of "+volumeText(room.Value, d.Units))
	}
	return sections + rest, phrase.And(parts) + "; label each with its piece and section", &room.Source
}

// fishingLineNeed packs strong line for signs and letters.
func fishingLineNeed(d *rigging.Rig) (int, string, *figures.Source) {
	signs := d.Signs()
	if len(signs) == 0 {
		return 0, "", nil
	}
	return 1, signs[0].Name + " hangs on it from two points, tied to the frame, never to balloons. " +
		d.LineHolds(signs[0]), &figures.Usual
}

// glueNeed packs glue dots: some for accents that are tied on, and those that hold clusters alone.
func glueNeed(d *rigging.Rig) (int, string, *figures.Source) {
	tied, dots := 0, 0
	for _, c := range d.Pieces {
		for _, on := range c.On() {
			dots += on.GlueDots
		}
		if c.Accent.Tie != "glue" {
			tied += c.Accents
		}
	}
	each := d.Figures.Row("supply/glue-dots")
	all := float64(float64(tied)*each.Value) + float64(dots)
	reason := phrase.Number(each.Value) + forEach(tied, "accent")
	if dots > 0 {
		reason = phrase.Count(figures.RoundUp(all), "dot")
	}
	return figures.RoundUp(all / d.Figures.Get("supply/glue-roll")), reason, &each.Source
}

// tapeNeed packs cloth tape and clear tape.
func tapeNeed(d *rigging.Rig) (int, string, *figures.Source) {
	if d.Job.Brief.Fixing == "nothing" {
		return 2, "for bags, cables and labels: stick nothing to the walls here", &figures.Usual
	}
	return 2, "for ends, cables and labels", &figures.Usual
}

// hookNeed packs removable hooks for bases without a frame, where the venue allows hooks. A wall hangs by its width.
func hookNeed(d *rigging.Rig) (int, string, *figures.Source) {
	fixing := d.Job.Brief.Fixing
	if fixing != "removable" && fixing != "any" {
		return 0, "", nil
	}
	every := d.Figures.Row("supply/hook-every")
	lengthMM := 0.0
	for _, c := range d.Pieces {
		switch {
		case !c.Joined || c.Piece.Frame != "":
		case c.Kind.Covers:
			lengthMM += c.Piece.WidthMM
		default:
			lengthMM += c.LineMM
		}
	}
	return figures.RoundUp(lengthMM / every.Value),
		"one every " + d.Length(every.Value) + " of base without a frame", &every.Source
}

// shineNeed packs shine spray.
func shineNeed(d *rigging.Rig) (int, string, *figures.Source) {
	each := d.Figures.Row("supply/shine")
	return figures.RoundUp(d.BaseMM() / each.Value),
		"one can for " + d.Length(each.Value) + " of base; there is " + d.Length(d.BaseMM()), &each.Source
}

// gelNeed packs drying gel for balloons that sink while they are still needed.
func gelNeed(d *rigging.Rig) (int, string, *figures.Source) {
	n := d.ToGel()
	if n == 0 {
		return 0, "", nil
	}
	each := d.Figures.Row("supply/gel-ml")
	return figures.RoundUp(float64(float64(n)*each.Value) / d.Figures.Get("supply/gel-bottle")),
		phrase.Number(each.Value) + " ml in each of " + phrase.Count(n, "balloon") + " that would sink too early",
		&each.Source
}

// weightNeed packs a weight for every bunch of helium balloons.
func weightNeed(d *rigging.Rig) (int, string, *figures.Source) {
	bunches, indoors := 0, 0.0
	var most rig.BunchHold
	for _, c := range d.Pieces {
		if !c.Helium {
			continue
		}
		bunches += c.Make.Count
		indoors = max(indoors, d.BallastG(c))
		if hold, floats := d.Bunch(c); floats && hold.LooseG > most.LooseG {
			most = hold
		}
	}
	source := &figures.Source{Text: "one and a half times what the balloons lift", Mark: figures.CommonPractice}
	reason := "one for each bouquet"
	switch {
	case most.LooseG > most.FixedG:
		reason += ": " + atLeast(most.FixedG, d.Units) +
			" or more where it cannot slide (pegged, or tied to a table), " +
			atLeast(most.LooseG, d.Units) + " where it stands loose, in gusts of " + d.Gust()
		source = &figures.Source{Text: "drag of spheres 0.47: Indiana University of Pennsylvania, drag coefficient " +
			"against Reynolds number", Mark: figures.Published}
	case indoors > 0:
		reason += ", " + atLeast(indoors, d.Units) + " or more each"
	}
	return bunches, reason, source
}

// atLeast writes a mass rounded up: to 5 g or to half an ounce, or from a pound up to a tenth of a pound.
func atLeast(grams float64, units measure.System) string {
	step := 5.0
	if units == measure.Imperial {
		step = measure.GramsPerOunce / 2
		if grams > measure.GramsPerPound {
			step = measure.GramsPerPound / 10
		}
	}
	return measure.FormatMass(figures.RoundUpTo(grams, step), units)
}

// ribbonNeed packs ribbon in metres or yards.
func ribbonNeed(d *rigging.Rig) (int, string, *figures.Source) {
	each, of := d.Figures.Row("supply/ribbon"), d.Floating()
	total := float64(of) * each.Value
	if d.Units == measure.Imperial {
		total *= 1000 / measure.MMPerYard
	}
	return figures.RoundUp(total), d.Length(1000*each.Value) + forEach(of, "floating balloon"), &each.Source
}

// pumpNeed packs an electric pump if the kit names none and there is power.
func pumpNeed(d *rigging.Rig) (int, string, *figures.Source) {
	if d.KitOf("pump") > 0 || d.Job.Brief.Power == "none" || !d.AnyBalloon() {
		return 0, "", nil
	}
	return 1, "no pump in your kit; one serves one person", &figures.Usual
}

// handPumpNeed packs hand pumps: one for each pair on site where there is no power, else one in case it fails.
func handPumpNeed(d *rigging.Rig) (int, string, *figures.Source) {
	switch {
	case !d.AnyBalloon():
		return 0, "", nil
	case d.BatteryPump() != "" && d.Job.Brief.Power == "none":
		return 1, "in case the battery runs out", &figures.Usual
	case d.Job.Brief.Power == "none":
		return (len(d.Site) + 1) / 2, "there is no power at the venue", &figures.Usual
	}
	return 1, "in case the power fails", &figures.Usual
}

// leadNeed packs an extension lead unless there is no power at all.
func leadNeed(d *rigging.Rig) (int, string, *figures.Source) {
	switch {
	case !d.AnyBalloon() || d.Job.Brief.Power == "none":
		return 0, "", nil
	case d.Job.Brief.Power == "far":
		return 2, "the socket is far away; tape the lead down where people walk", &figures.Usual
	}
	return 1, "sockets are rarely near the piece", &figures.Usual
}

// batteryNeed packs spare bulbs or batteries for anything in the kit that lights.
func batteryNeed(d *rigging.Rig) (int, string, *figures.Source) {
	for _, k := range d.Job.Kit {
		if k.Kind == "other" &&
			phrase.HasWord(k.Name, "light", "lights", "lit", "lamp", "lamps", "neon", "led", "leds", "bulb", "bulbs") {
			return 1, k.Name + " lights up", &figures.Usual
		}
	}
	return 0, "", nil
}

// sizingNeed packs a sizing box: equal balloons matter more than exact ones.
func sizingNeed(d *rigging.Rig) (int, string, *figures.Source) {
	return 1, "balloons in a cluster must match; openings for " + openings(d), &figures.Usual
}

// glassesNeed packs glasses for everyone who fills and twists.
func glassesNeed(d *rigging.Rig) (int, string, *figures.Source) {
	return len(d.Site), "balloons burst while you fill and twist them", &figures.Usual
}

// footWeightNeed packs weights for the feet of frames, columns and digits: a usual number for each, and more where one
// would tip over or slide, see [rigging.Stand].
func footWeightNeed(d *rigging.Rig) (int, string, *figures.Source) {
	need, more, falls := 0, false, false
	var parts []string
	for _, s := range d.Stands {
		need += s.Count * s.Weights
		more, falls = more || s.More, falls || d.Falls(s)
		if s.Weights == 0 {
			continue
		}
		part := strconv.Itoa(s.Count*s.Weights) + " for " + s.Name
		if s.Count > 1 {
			part += " (" + strconv.Itoa(s.Weights) + " each)"
		}
		parts = append(parts, part)
	}
	reason := phrase.And(parts) + ", of " + d.FootWeight()
	switch {
	case falls:
		reason += "; even so, some come down before the expected gusts of " + d.Gust()
	case more && d.GustMPS() > 0:
		reason += ", so that they stand in gusts of " + d.Gust() + " when somebody leans on them"
	case more:
		reason += ", so that they stand when somebody leans on them"
	case d.Outdoors():
		reason += ", outdoors, where wind pushes"
	}
	return need, reason, &d.Figures.Row("supply/foot-weight-kg").Source
}

// steamerNeed packs a steamer where a cloth hangs.
func steamerNeed(d *rigging.Rig) (int, string, *figures.Source) {
	for _, k := range d.Job.Kit {
		if rigging.IsCover(k) && phrase.HasWord(k.Name, "cloth", "cloths", "curtain", "curtains", "drape", "drapes") {
			return 1, k.Name + " creases on the way", &figures.Usual
		}
	}
	return 0, "", nil
}

// ladderNeed packs a step ladder if something is high and the kit names none.
func ladderNeed(d *rigging.Rig) (int, string, *figures.Source) {
	limit := d.Figures.Row("hands/ladder")
	if d.KitOf("ladder") > 0 {
		return 0, "", nil
	}
	for _, c := range d.Pieces {
		if c.HighMM > limit.Value {
			return 1, c.Piece.Name + " reaches " + d.Length(c.HighMM), &limit.Source
		}
	}
	if signs := d.Signs(); len(signs) > 0 {
		return 1, signs[0].Name + " hangs high", &limit.Source
	}
	return 0, "", nil
}

// tableNeed packs a table to work at when clusters are made on site.
func tableNeed(d *rigging.Rig) (int, string, *figures.Source) {
	if !d.Any(func(c *count.Counted) bool { return c.OnSite && c.Balloons > 0 }) {
		return 0, "", nil
	}
	return 1, "balloons are filled and tied on site", &figures.Usual
}

// sheetNeed packs a floor sheet: balloons burst on rough or dirty floors.
func sheetNeed(d *rigging.Rig) (int, string, *figures.Source) {
	switch d.Job.Brief.Floor {
	case "grass", "gravel":
		return 2, "balloons burst on " + d.Job.Brief.Floor, &figures.Usual
	}
	return 1, "keeps balloons off the floor and the floor clean", &figures.Usual
}

// trolleyNeed packs a trolley, unless the brief says what the way in is like and not that a trolley gets through.
func trolleyNeed(d *rigging.Rig) (int, string, *figures.Source) {
	b := &d.Job.Brief
	if !b.Trolley && (b.CarryMM > 0 || b.Flights > 0 || b.LiftBags > 0) {
		return 0, "", nil
	}
	if way := b.Parking; way != "" {
		return 1, "the way in: " + way, &figures.Usual
	}
	return 1, "you can rarely park at the door", &figures.Usual
}

// noticeNeed packs a notice for the door when the brief mentions an allergy.
func noticeNeed(d *rigging.Rig) (int, string, *figures.Source) {
	if strings.TrimSpace(d.Job.Brief.Allergy) == "" || !d.AnyBalloon() {
		return 0, "", nil
	}
	return 1, "the brief mentions an allergy; say at the door that the décor is natural rubber latex", &figures.Usual
}

// binBagNeed packs bin bags for the take-down.
func binBagNeed(d *rigging.Rig) (int, string, *figures.Source) {
	each := d.Figures.Row("supply/bin-bag")
	n := d.Sum(func(c *count.Counted) int { return c.Balloons })
	if n == 0 {
		return 0, "", nil
	}
	return 1 + figures.RoundUp(float64(n)/each.Value),
		"one for every " + phrase.Number(each.Value) + " of " + phrase.Count(n, "balloon") + ", and one for wrappings",
		&each.Source
}

// openings lists the diameters that balloons are sized to, smallest first.
func openings(d *rigging.Rig) string {
	var list []float64
	for _, b := range d.Balloons {
		for _, p := range b.Pieces {
			list = insertOnce(list, p.ToIn)
		}
	}
	return smallList(d, list)
}

// smallList writes diameters as a list: "4.5 in, 10 in and 16 in".
func smallList(d *rigging.Rig, list []float64) string {
	var texts []string
	for _, toIn := range list {
		texts = append(texts, d.Small(toIn))
	}
	return phrase.And(texts)
}

func insertOnce(list []float64, x float64) []float64 {
	at := 0
	for at < len(list) && list[at] < x {
		at++
	}
	if at < len(list) && list[at] == x {
		return list
	}
	list = append(list, 0)
	copy(list[at+1:], list[at:])
	list[at] = x
	return list
}

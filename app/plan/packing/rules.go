package packing

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
	"garlandry/calc/measure"
)

// rule is one reason to pack something. Its lines have the keys "pack/KEY" or "pack/KEY/id".
type rule struct {
	key   string
	bag   string // the bag of its lines, unless a line names its own
	name  string
	unit  string // plural
	yards bool   // the unit is yards where people think in feet
	kit   bool   // comes home

	// How many and why. By default a rule packs one.
	when   func(d *rigging.Rig) bool // nil: always
	reason string
	each   string // key of a figure: how many for each of what "of" counts
	of     func(d *rigging.Rig) int
	noun   string // the name of what "of" counts
	holds  string // key of a figure: how many come in one; "": singly
	need   func(d *rigging.Rig) (n int, reason string, source *figures.Source)

	// For a rule with several lines.
	lines func(d *rigging.Rig) []packed
	gone  func(j job.Job, id string) string // names a line that is packed but no longer in the plan
}

// rules lists every reason to pack something, in the order of lines within a bag. A new one is one row here.
var rules = []*rule{
	{key: "latex", bag: "bag/balloons", gone: latexName, lines: latexLines},
	{key: "tie/260", bag: "bag/balloons", name: "260s for ties", unit: "balloons", need: tieNeed},
	{key: "made", bag: "bag/made", gone: madeGone, lines: madeLines},
	{key: "supply/clear-bags", bag: "bag/made", name: "Big clear bags and labels", unit: "bags", need: clearBagNeed},
	{key: "supply/glue-dots", bag: "bag/fixings", name: "Glue dots", unit: "rolls", need: glueNeed},
	{key: "supply/fishing-line", bag: "bag/fixings", name: "Strong fishing line", need: fishingLineNeed},
	{key: "supply/cable-ties", bag: "bag/fixings", name: "Cable ties", unit: "ties",
		each: "supply/cable-ties", of: frames, noun: "frame"},
	{key: "supply/tape", bag: "bag/fixings", name: "Cloth tape and clear tape", unit: "rolls",
		when: balloons, need: tapeNeed},
	{key: "supply/hooks", bag: "bag/fixings", name: "Removable hooks", unit: "hooks", need: hookNeed},
	{key: "supply/shine-spray", bag: "bag/fixings", name: "Shine spray", unit: "cans", need: shineNeed},
	{key: "helium/cylinder", bag: "bag/helium", name: "Helium cylinder with valve and nozzle",
		kit: true, need: cylinderNeed},
	{key: "tool/straps", bag: "bag/helium", name: "Straps for the cylinder", unit: "straps", kit: true,
		need: strapNeed},
	{key: "helium/gel", bag: "bag/helium", name: "Drying gel", unit: "bottles", need: gelNeed},
	{key: "helium/weights", bag: "bag/helium", name: "Balloon weights", unit: "weights", kit: true, need: weightNeed},
	{key: "helium/ribbon", bag: "bag/helium", name: "Non-conductive ribbon", unit: "m", yards: true,
		need: ribbonNeed},
	{key: "tool/pump", bag: "bag/air", name: "Electric pump", kit: true, need: pumpNeed},
	{key: "tool/hand-pump", bag: "bag/air", name: "Hand pump", kit: true, need: handPumpNeed},
	{key: "tool/lead", bag: "bag/air", name: "Extension lead", kit: true, need: leadNeed},
	{key: "tool/power-bank", bag: "bag/air", name: "Phone power bank and cable", kit: true,
		when: pieces, reason: "the plan is on your phone all day"},
	{key: "supply/batteries", bag: "bag/air", name: "Spare bulbs or batteries", need: batteryNeed},
	{key: "tool/sizing-box", bag: "bag/tools", name: "Sizing box or template", kit: true,
		when: balloons, need: sizingNeed},
	{key: "tool/scissors", bag: "bag/tools", name: "Scissors and side cutter", kit: true,
		when: pieces, reason: "line, ribbon, cable ties"},
	{key: "tool/tape-measure", bag: "bag/tools", name: "Tape measure", kit: true,
		when: pieces, reason: "rooms rarely match the drawing"},
	{key: "safety/glasses", bag: "bag/safety", name: "Safety glasses", kit: true, when: balloons, need: glassesNeed},
	{key: "supply/labels", bag: "bag/tools", name: "Labels and marker",
		when: travels, reason: "every bag says which piece and section it holds"},
	{key: "kit", bag: "bag/tools", gone: kitGone, lines: kitLines},
	{key: "tool/pole", bag: "bag/frames", name: "Pole and foot for a column", kit: true, need: poleNeed},
	{key: "tool/digit-frame", bag: "bag/frames", name: "Frame for a digit", kit: true, need: digitNeed},
	{key: "tool/wall-frame", bag: "bag/frames", name: "Frame or net that carries the wall", kit: true, need: wallNeed},
	{key: "tool/cord", bag: "bag/fixings", name: "Strong cord", unit: "roll", kit: true, need: cordNeed},
	{key: "tool/level", bag: "bag/tools", name: "Spirit level", kit: true, need: levelNeed},
	{key: "tool/clamps", bag: "bag/frames", name: "Clamps", unit: "clamps", kit: true,
		each: "supply/clamps", of: frames, noun: "frame"},
	{key: "tool/foot-weights", bag: "bag/frames", name: "Foot weights", unit: "weights",
		kit: true, need: footWeightNeed},
	{key: "tool/stakes", bag: "bag/frames", name: "Stakes and lines", unit: "stakes", kit: true, need: stakeNeed},
	{key: "tool/mallet", bag: "bag/frames", name: "Mallet", kit: true, need: malletNeed},
	{key: "tool/steamer", bag: "bag/frames", name: "Steamer for cloths", kit: true, need: steamerNeed},
	{key: "tool/ladder", bag: "bag/loose", name: "Step ladder", kit: true, need: ladderNeed},
	{key: "tool/table", bag: "bag/loose", name: "Work table", kit: true, need: tableNeed},
	{key: "tool/floor-sheet", bag: "bag/loose", name: "Floor sheet", kit: true, when: balloons, need: sheetNeed},
	{key: "tool/trolley", bag: "bag/loose", name: "Trolley", kit: true, when: travels, need: trolleyNeed},
	{key: "tool/shade", bag: "bag/loose", name: "Shade and rain cover", kit: true, need: shadeNeed},
	{key: "safety/first-aid", bag: "bag/safety", name: "First-aid box", kit: true,
		when: pieces, reason: "for cuts and falls"},
	{key: "paper/plan", bag: "bag/safety", name: "Printed plan", when: pieces, reason: "works without a battery"},
	{key: "paper/latex-notice", bag: "bag/safety", name: "Notice: natural rubber latex", need: noticeNeed},
	{key: "supply/wipes", bag: "bag/safety", name: "Wipes", unit: "packs",
		when: balloons, reason: "hands, spray on the floor, sticky tables"},
	{key: "supply/bin-bags", bag: "bag/clear", name: "Bin bags", unit: "bags", need: binBagNeed},
	{key: "tool/broom", bag: "bag/clear", name: "Broom and dustpan", kit: true,
		when: balloons, reason: "pick up every burst piece at once"},
	{key: "added", bag: "bag/other", gone: addedGone, lines: addedLines},
}

// Conditions for packing a supply.
var (
	balloons = (*rigging.Rig).AnyBalloon
	pieces   = (*rigging.Rig).AnyPiece
)

// travels reports whether pieces go to the venue by car.
func travels(d *rigging.Rig) bool { return d.AnyPiece() && d.Travels() }

// list returns the lines of the rule for a job.
func (r *rule) list(d *rigging.Rig) []packed {
	if r.lines != nil {
		return r.lines(d)
	}
	if r.when != nil && !r.when(d) {
		return nil
	}
	n, reason, source := 1, r.reason, &figures.Usual
	switch {
	case r.need != nil:
		n, reason, source = r.need(d)
	case r.each != "":
		n, reason, source = r.count(d)
	}
	if n <= 0 {
		return nil
	}
	unit := r.unit
	if r.yards && d.Units == measure.Imperial {
		unit = "yards"
	}
	return []packed{{Line: Line{Key: job.PackKey(r.key, ""), Name: r.name, Unit: phrase.Unit(n, unit), Kit: r.kit,
		Need: n, Reason: reason, Source: *source}}}
}

// count multiplies the rule's figure by the number of things it counts.
func (r *rule) count(d *rigging.Rig) (int, string, *figures.Source) {
	each, of, holds := d.Figures.Row(r.each), r.of(d), 1.0
	if r.holds != "" {
		holds = d.Figures.Get(r.holds)
	}
	return figures.RoundUp(float64(float64(of)*each.Value) / holds), phrase.Number(each.Value) + forEach(of, r.noun),
		&each.Source
}

// forEach says what an amount is for: " for each of 3 frames", " for 1 frame".
func forEach(n int, noun string) string {
	if n == 1 {
		return " for 1 " + noun
	}
	return " for each of " + phrase.Count(n, noun)
}

// called names a line that is packed but no longer in the plan.
func (r *rule) called(j job.Job, id string) string {
	if r.gone == nil {
		return r.name
	}
	return r.gone(j, id)
}

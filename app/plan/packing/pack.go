// Package packing lists what travels, bag by bag, and what of it has to be bought. Start at [List].
package packing

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/app/plan/rigging"
)

// packRule is one reason to pack something. Its lines have the keys "pack/FAMILY" or "pack/FAMILY/...".
type rule struct {
	family string
	bag    string // where its lines travel unless they say otherwise

	// Of a rule for one line that is always called the same: how, with the unit of many, whether it comes home again, what
	// it goes with (nil: it always may), why, and how many with why and by what source (nil: one, as is usual).
	one, unit string
	kit       bool
	with      func(d *rigging.Rig) bool
	reason    string
	need      func(d *rigging.Rig) (n int, reason string, source *figures.Source)

	// Of a rule for several lines.
	name  func(j job.Job, id string) string // of a line that is packed but no longer in the plan
	lines func(d *rigging.Rig) []packed
}

// packRules lists every rule, in the order of lines within a bag. A new rule is one file and one line here.
var rules = []*rule{
	&latexRule, &tieRule, &madeRule, &clearBagRule,
	&glueRule, &fishingLineRule, &cableTieRule, &tapeRule, &hookRule, &shineRule,
	&cylinderRule, &weightRule, &ribbonRule,
	&pumpRule, &handPumpRule, &leadRule, &powerBankRule, &batteryRule,
	&sizingRule, &scissorsRule, &tapeMeasureRule, &glassesRule, &markerRule,
	&kitRule, &clampRule, &footWeightRule, &steamerRule,
	&ladderRule, &tableRule, &sheetRule, &trolleyRule,
	&firstAidRule, &papersRule, &noticeRule, &wipesRule,
	&binBagRule, &broomRule,
	&addedRule,
}

// packed is a pack line and the bag it travels in; an empty bag is the rule's.
type packed struct {
	bag string
	Line
}

// bagNames are the bags and boxes things travel in, in packing order. A bag of the user's own comes after them.
func bagNames() []Bag {
	return []Bag{
		{Key: "bag/balloons", Name: "Balloon crate"},
		{Key: "bag/made", Name: "Big clear bags"},
		{Key: "bag/fixings", Name: "Fixings box"},
		{Key: "bag/air", Name: "Pumps and power"},
		{Key: "bag/helium", Name: "Helium"},
		{Key: "bag/tools", Name: "Tool box"},
		{Key: "bag/frames", Name: "Frames and covers"},
		{Key: "bag/loose", Name: "Loose in the car"},
		{Key: "bag/safety", Name: "Safety and papers"},
		{Key: "bag/clear", Name: "For clearing up"},
		{Key: "bag/other", Name: "Everything else"},
	}
}

// packList runs the rules and puts their lines into bags.
func List(d *rigging.Rig) []Bag {
	p := packer{bags: bagNames()}
	for _, rule := range rules {
		for _, line := range rule.list(d) {
			if line.bag == "" {
				line.bag = rule.bag
			}
			p.put(line)
		}
	}
	return p.filled()
}

// packer puts lines into bags.
type packer struct{ bags []Bag }

func (p *packer) put(line packed) {
	for i := range p.bags {
		if strings.EqualFold(p.bags[i].Key, line.bag) {
			p.bags[i].Lines = append(p.bags[i].Lines, line.Line)
			return
		}
	}
	p.bags = append(p.bags,
		Bag{Key: strings.ToLower(line.bag), Name: strings.TrimPrefix(line.bag, ownBag), Lines: []Line{line.Line}})
}

// filled is the bags that hold something.
func (p *packer) filled() []Bag {
	var filled []Bag
	for _, b := range p.bags {
		if len(b.Lines) > 0 {
			filled = append(filled, b)
		}
	}
	return filled
}

// ownBag begins the key of a bag that the user named.
const ownBag = "bag/own/"

// bagNamed is the key of the bag the user means: one of the plan's by name, or one of their own.
func bagNamed(name string) string {
	name = strings.TrimSpace(name)
	if name == "" {
		return "bag/other"
	}
	for _, b := range bagNames() {
		if strings.EqualFold(b.Name, name) {
			return b.Key
		}
	}
	return ownBag + name
}

// list gives the lines of the rule for a plan.
func (r *rule) list(d *rigging.Rig) []packed {
	if r.lines != nil {
		return r.lines(d)
	}
	if r.with != nil && !r.with(d) {
		return nil
	}
	n, reason, source := 1, r.reason, &figures.Usual
	if r.need != nil {
		n, reason, source = r.need(d)
	}
	if n <= 0 {
		return nil
	}
	return []packed{
		{
			Line: Line{Key: job.PackKey(r.family, ""), Name: r.one, Unit: phrase.Unit(n, r.unit), Kit: r.kit, Need: n,
				Reason: reason, Source: *source},
		},
	}
}

// called names a line that is packed but no longer in the plan.
func (r *rule) called(j job.Job, id string) string {
	if r.name == nil {
		return r.one
	}
	return r.name(j, id)
}

// Bag is what travels together.
type Bag struct {
	Key, Name string
	Lines     []Line
}

// PackLine is one thing to pack.
type Line struct {
	Key    string // also the entity whose register "have" says how many are packed
	Name   string
	Unit   string // "balloons", "bags", "" for single things
	Kit    bool   // comes home again
	Need   int    // 0: packed once, no longer needed
	Have   int
	Back   int // of kit: in the car again after take-down
	Reason string
	Colour *job.Colour
	SizeIn int
	Source figures.Source
}

// More is how many are still to pack; negative when more are packed than needed.
func (l Line) More() int { return l.Need - l.Have }

// Out is how many have to come home again: what was packed, or was to be; 0 of what is used up.
func (l Line) Out() int {
	switch {
	case !l.Kit:
		return 0
	case l.Have > 0:
		return l.Have
	}
	return l.Need
}

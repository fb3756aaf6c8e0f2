package plan

import (
	"strings"

	"garlandry/app/job"
)

// packRule is one reason to pack something. Its lines have the keys "pack/FAMILY" or "pack/FAMILY/...".
type packRule struct {
	family string
	bag    string // where its lines travel unless they say otherwise

	// Of a rule for one line that is always called the same: how, with the unit of many, whether it comes home again, what
	// it goes with (nil: it always may), why, and how many with why and by what source (nil: one, as is usual).
	one, unit string
	kit       bool
	with      func(d *draft) bool
	reason    string
	need      func(d *draft) (n int, reason string, source *Source)

	// Of a rule for several lines.
	name  func(j job.Job, id string) string // of a line that is packed but no longer in the plan
	lines func(d *draft) []packed
}

// packRules lists every rule, in the order of lines within a bag. A new rule is one file and one line here.
var packRules = []*packRule{
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
	PackLine
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
func (d *draft) packList() {
	p := packer{bags: bagNames()}
	for _, rule := range packRules {
		for _, line := range rule.list(d) {
			if line.bag == "" {
				line.bag = rule.bag
			}
			p.put(line)
		}
	}
	d.plan.Pack = p.filled()
}

// packer puts lines into bags.
type packer struct{ bags []Bag }

func (p *packer) put(line packed) {
	for i := range p.bags {
		if strings.EqualFold(p.bags[i].Key, line.bag) {
			p.bags[i].Lines = append(p.bags[i].Lines, line.PackLine)
			return
		}
	}
	p.bags = append(p.bags,
		Bag{Key: strings.ToLower(line.bag), Name: strings.TrimPrefix(line.bag, ownBag), Lines: []PackLine{line.PackLine}})
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
func (r *packRule) list(d *draft) []packed {
	if r.lines != nil {
		return r.lines(d)
	}
	if r.with != nil && !r.with(d) {
		return nil
	}
	n, reason, source := 1, r.reason, &usual
	if r.need != nil {
		n, reason, source = r.need(d)
	}
	if n <= 0 {
		return nil
	}
	return []packed{
		{
			PackLine: PackLine{Key: "pack/" + r.family, Name: r.one, Unit: unitOf(n, r.unit), Kit: r.kit, Need: n,
				Reason: reason, Source: *source},
		},
	}
}

// called names a line that is packed but no longer in the plan.
func (r *packRule) called(j job.Job, id string) string {
	if r.name == nil {
		return r.one
	}
	return r.name(j, id)
}

// unitOf is the unit for a number of things: without its s for one. Units here end in a plain s or have no plural.
func unitOf(n int, many string) string {
	if n == 1 {
		return strings.TrimSuffix(many, "s")
	}
	return many
}

// usual is the source of a rule that has no figure.
var usual = Source{Text: "common practice, no source", Mark: CommonPractice}

// any reports whether any piece answers.
func (d *draft) any(is func(c *counted) bool) bool {
	for _, c := range d.pieces {
		if is(c) {
			return true
		}
	}
	return false
}

// sum adds up over the pieces.
func (d *draft) sum(of func(c *counted) int) int {
	total := 0
	for _, c := range d.pieces {
		total += of(c)
	}
	return total
}

func (d *draft) anyBalloon() bool { return len(d.plan.Balloons) > 0 }
func (d *draft) anyPiece() bool   { return len(d.pieces) > 0 }

// kitOf counts what the kit holds of a kind.
func (d *draft) kitOf(kind string) int {
	n := 0
	for _, k := range d.job.Kit {
		if k.Kind == kind {
			n += k.Count
		}
	}
	return n
}

// framesUsed is the frames that carry pieces, or a sign or cloth that names them, each once, in the kit's order.
func (d *draft) framesUsed() []job.Kit {
	if d.frames == nil {
		d.frames = []job.Kit{}
		for _, k := range d.job.Kit {
			if _, carries := d.onFrame(k.ID); carries {
				d.frames = append(d.frames, k)
			}
		}
	}
	return d.frames
}

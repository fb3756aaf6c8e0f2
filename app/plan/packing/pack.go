// Package packing lists what travels, bag by bag, and what to buy of it. Start at [List].
package packing

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/rigging"
)

// packed is a pack line and its bag; "" is the rule's bag.
type packed struct {
	bag string
	Line
}

// bagNames returns the bags and boxes in packing order. The user's own bags come after them. Where nothing travels,
// large things are not loose in a car.
func bagNames(travels bool) []Bag {
	loose := "Loose in the car"
	if !travels {
		loose = "Large things"
	}
	return []Bag{
		{Key: "bag/balloons", Name: "Balloon crate"},
		{Key: "bag/made", Name: "Big clear bags"},
		{Key: "bag/fixings", Name: "Fixings box"},
		{Key: "bag/air", Name: "Pumps and power"},
		{Key: "bag/helium", Name: "Helium"},
		{Key: "bag/tools", Name: "Tool box"},
		{Key: "bag/frames", Name: "Frames and covers"},
		{Key: "bag/loose", Name: loose},
		{Key: "bag/safety", Name: "Safety and papers"},
		{Key: "bag/clear", Name: "For clearing up"},
		{Key: "bag/other", Name: "Everything else"},
	}
}

// List runs the rules and puts their lines into bags.
func List(d *rigging.Rig) []Bag {
	p := packer{bags: bagNames(d.Travels())}
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

// filled lists the bags that hold something.
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

// bagNamed returns the key of the bag with a name: one of the plan's, or one of the user's own.
func bagNamed(name string) string {
	name = strings.TrimSpace(name)
	if name == "" {
		return "bag/other"
	}
	for _, b := range bagNames(true) {
		if strings.EqualFold(b.Name, name) {
			return b.Key
		}
	}
	return ownBag + name
}

// Bag is what travels together.
type Bag struct {
	Key, Name string
	Lines     []Line
}

// Line is one thing to pack.
type Line struct {
	Key    string // also the entity whose register "have" says how many are packed
	Name   string
	Unit   string // "balloons", "bags", "" for single things
	Kit    bool   // comes home
	Need   int    // 0: packed once, no longer needed
	Have   int
	Back   int // of kit: back in the car after take-down
	Reason string

	Unneeded bool `json:",omitempty"` // somebody set it aside: nothing is left to pack of it
	Colour   *job.Colour
	SizeIn   int
	Source   figures.Source
}

// More returns how many are still to pack; negative if too many are packed.
func (l Line) More() int {
	if l.Unneeded {
		return -l.Have
	}
	return l.Need - l.Have
}

// Out returns how many have to come home: those packed, or needed if none is packed yet; 0 of what is used up.
func (l Line) Out() int {
	switch {
	case !l.Kit || l.Unneeded && l.Have == 0:
		return 0
	case l.Have > 0:
		return l.Have
	}
	return l.Need
}

package task

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/phrase"
)

// longestStands is the most letters that what a tick stands for may take; of a longer list nothing is written down.
const longestStands = 20000

// Stands gives what a tick of the card stands for as the plan is now: one line for each line of the pack list that the
// card is about, its key and how many are needed. It is empty for a card whose tick stands for itself.
func Stands(pack []packing.Bag, card string) string {
	said := ""
	about(pack, card, func(line *packing.Line) {
		said += line.Key + " " + strconv.Itoa(line.Need) + "\n"
	})
	if len(said) > longestStands {
		return ""
	}
	return said
}

// about calls what is needed of the pack list for the card: balloons to get together, everything to pack and to load.
func about(pack []packing.Bag, card string, do func(*packing.Line)) {
	balloonsOnly := false
	switch RefTo(card) {
	case FamilyShop.Only():
		balloonsOnly = true
	case FamilyPack.Only(), FamilyLoad.Only():
	default:
		return
	}
	for b := range pack {
		lines := pack[b].Lines
		for i := range lines {
			if lines[i].Need > 0 && (!balloonsOnly || strings.HasPrefix(job.KeyPath(lines[i].Key), "latex/")) {
				do(&lines[i])
			}
		}
	}
}

// reopen opens a ticked card again when more is needed than it was ticked for, of anything, and says so. What was
// packed since counts as there, but for the car, which it may have missed. A tick of an early version, which did not
// write down what it stood for, stays.
func (c *Card) reopen(j job.Job, pack []packing.Bag) {
	stood := phrase.Field(j, c.Key, "stands", "")
	if !c.Done || stood == "" {
		return
	}
	before, counts := 0, map[string]int{}
	for _, line := range strings.Split(stood, "\n") {
		key, n, _ := strings.Cut(line, " ")
		counts[key], _ = strconv.Atoi(n) // unreadable counts as none
		before += counts[key]
	}
	now, lacking, first := 0, 0, ""
	about(pack, c.Key, func(line *packing.Line) {
		now += line.Need
		there := counts[line.Key]
		if RefTo(c.Key) != FamilyLoad.Only() {
			there = max(there, line.Have)
		}
		if more := line.Need - there; more > 0 {
			if lacking++; lacking == 1 {
				first = strconv.Itoa(more) + " more " + line.Name
			}
		}
	})
	if lacking == 0 {
		return
	}
	unit := "things"
	if RefTo(c.Key) == FamilyShop.Only() {
		unit = "balloons"
	}
	c.Done = false
	c.Stood = "Was done for " + strconv.Itoa(before) + " " + unit + ", now " + strconv.Itoa(now) + " are needed: " + first
	if lacking > 1 {
		c.Stood += " and " + strconv.Itoa(lacking-1) + " lines more"
	}
	c.Stood += "."
}

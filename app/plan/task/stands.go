package task

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/phrase"
)

// longestStands is the most bytes that [Stands] returns.
const longestStands = 20000

// Stands returns what a tick of the card covers in the plan as it is now: the key and the need of each pack line that
// the card is about, a line each. It returns "" for other cards and for lists over longestStands.
func Stands(pack []packing.Bag, card string) string {
	text := ""
	about(pack, card, func(line *packing.Line) {
		text += line.Key + " " + strconv.Itoa(line.Need) + "\n"
	})
	if len(text) > longestStands {
		return ""
	}
	return text
}

// about calls do for each pack line that the card is about: balloons for getting them together, everything for packing
// and loading.
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

// reopen opens a ticked card again, and says why, when more of anything is needed than it was ticked for. What was
// packed since counts, except for loading: it may have missed the car. A tick by an early version, which did not store
// what it covered, stays.
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
	c.Stood = "Done for " + strconv.Itoa(before) + " " + unit + ", but " + strconv.Itoa(now) + " are needed now: " + first
	if lacking > 1 {
		c.Stood += " and " + strconv.Itoa(lacking-1) + " more lines"
	}
	c.Stood += "."
}

package task

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/packing"
)

// longestStands is the most bytes that [Stands] returns.
const longestStands = 20000

// Stands returns what a tick of the card covers in the plan as it is now: the key and the need of each line that the
// card is about, a line each. It returns "" for other cards and for lists over longestStands.
func Stands(balloons []count.BalloonLine, pack []packing.Bag, card string) string {
	text := ""
	about(balloons, pack, card, func(line *packing.Line) {
		text += line.Key + " " + strconv.Itoa(line.Need) + "\n"
	})
	if len(text) > longestStands {
		return ""
	}
	return text
}

// about calls do for each line that the card is about: all balloons to buy for getting them together, everything that
// travels for packing and loading.
func about(balloons []count.BalloonLine, pack []packing.Bag, card string, do func(*packing.Line)) {
	switch RefTo(card) {
	case FamilyShop.Only():
		for i := range balloons {
			line := packing.Latex(&balloons[i])
			do(&line)
		}
	case FamilyPack.Only(), FamilyLoad.Only():
		for b := range pack {
			lines := pack[b].Lines
			for i := range lines {
				if lines[i].Need > 0 && !lines[i].Unneeded {
					do(&lines[i])
				}
			}
		}
	}
}

// reopen opens a ticked card again, and says why, when more of anything is needed than it was ticked for. What was
// bought or packed since counts, except for loading: it may have missed the car. A tick by an early version, which did
// not store what it covered, stays.
func (c *Card) reopen(j job.Job, balloons []count.BalloonLine, pack []packing.Bag) {
	counts, before := packing.Stood(j, c.Key), 0
	if !c.Done || counts == nil {
		return
	}
	for _, n := range counts {
		before += n
	}
	now, lacking, first := 0, 0, ""
	about(balloons, pack, c.Key, func(line *packing.Line) {
		now += line.Need
		there := counts[line.Key]
		switch RefTo(c.Key) {
		case FamilyShop.Only():
			there = max(there, j.Bought(line.Key), j.Packed(line.Key))
		case FamilyPack.Only():
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

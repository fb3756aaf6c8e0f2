package packing

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
)

// Progress adds to a design's bags what was packed, what was set aside and what came back. What is packed but no longer
// needed comes back as a line with Need 0.
func Progress(j job.Job, design []Bag) []Bag {
	p := packer{bags: bagNames(count.Travels(j))}
	there := map[string]bool{}
	for _, bag := range design {
		for _, line := range bag.Lines {
			line.Have, line.Back, line.Unneeded = j.Packed(line.Key), j.Back(line.Key), j.Unneeded(line.Key)
			there[line.Key] = true
			at := bag.Key
			if strings.HasPrefix(at, ownBag) {
				at = ownBag + bag.Name
			}
			p.put(packed{at, line})
		}
	}
	for _, key := range j.State.Entities("pack") {
		if have := j.Packed(key); have > 0 && !there[key] {
			line := goneLine(j, key)
			line.Have, line.Back = have, j.Back(key)
			p.put(line)
		}
	}
	return p.filled()
}

// goneLine rebuilds a pack line that the plan no longer has from its key.
func goneLine(j job.Job, key string) packed {
	rest := job.KeyPath(key)
	line := packed{"bag/other", Line{Key: key, Name: rest, Reason: "packed, but no longer needed"}}
	for _, rule := range rules {
		id, mine := strings.CutPrefix(rest, rule.key+"/")
		if rest == rule.key || mine {
			line.bag, line.Name, line.Kit = rule.bag, rule.called(j, id), rule.kit || rule.key == "kit"
		}
	}
	return line
}

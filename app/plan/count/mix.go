package count

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/phrase"
	"garlandry/calc/stock"
)

// mix is the balloons of one size in clusters that several colours share.
type mix struct {
	sizeIn, each, clusters int // each: balloons in one cluster
	colours                []job.Colour
	weights                []float64
}

// makeup says what one cluster holds of the mix, for every cluster along the base; nil for more than a plan deals out.
func (m *mix) makeup() []string {
	dealt, _, err := stock.Spread(m.clusters, m.each, m.weights)
	if err != nil {
		return nil
	}
	words := make([]string, len(dealt))
	for i, colours := range dealt {
		for at := 0; at < len(colours); {
			n := at
			for n < len(colours) && colours[n] == colours[at] {
				n++
			}
			if at > 0 {
				words[i] += ", "
			}
			words[i] += strconv.Itoa(n-at) + " " + m.colours[colours[at]].Name
			at = n
		}
		words[i] += " " + phrase.Inch(m.sizeIn)
	}
	return words
}

// mostMakeups is how many kinds of cluster one can keep apart on a table.
const mostMakeups = 8

// Makeups says how many clusters are of which make-up, whole balloons in each, in the order in which the kinds turn up
// along the base; size by size where all sizes together make too many kinds. They sum to the counts by colour. Nothing
// where there is one colour alone.
func Makeups(mixed []mix) string {
	var together []string
	apart, several := "", false
	for i := range mixed {
		words := mixed[i].makeup()
		if words == nil {
			return ""
		}
		several = several || len(mixed[i].colours) > 1
		if apart != "" {
			apart += ". "
		}
		said, _ := tally(words)
		apart += said
		if together == nil {
			together = words
			continue
		}
		for j := range together {
			together[j] += " and " + words[j]
		}
	}
	said, kinds := tally(together)
	switch {
	case !several:
		return ""
	case kinds > mostMakeups:
		return apart
	}
	return said
}

// tally counts equal words, in the order of their first: "4 clusters of 2 Coral 11-inch; 3 of 1 Coral, 1 Sand 11-inch".
func tally(words []string) (said string, kinds int) {
	counts := map[string]int{}
	for _, w := range words {
		counts[w]++
	}
	for _, w := range words {
		n := counts[w]
		if n == 0 {
			continue
		}
		counts[w] = 0
		if kinds++; kinds == 1 {
			said = phrase.Count(n, "cluster")
		} else {
			said += "; " + strconv.Itoa(n)
		}
		said += " of " + w
	}
	return said, kinds
}

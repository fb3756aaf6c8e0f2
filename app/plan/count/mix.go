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

// makeup writes what each cluster along the base holds of the mix. It returns nil for more than [stock.Spread] takes.
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

// mostMakeups is how many kinds of cluster a person can keep apart on a table.
const mostMakeups = 8

// Makeups says how many clusters have which colours, in the order of their first along the base. It goes size by size
// if all sizes together make too many kinds. The balloons sum to the counts by colour. It returns "" for a single
// colour.
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
		text, _ := tally(words)
		apart += text
		if together == nil {
			together = words
			continue
		}
		for j := range together {
			together[j] += " and " + words[j]
		}
	}
	text, kinds := tally(together)
	switch {
	case !several:
		return ""
	case kinds > mostMakeups:
		return apart
	}
	return text
}

// tally counts equal words, in the order of their first: "4 clusters of 2 Coral 11-inch; 3 of 1 Coral, 1 Sand 11-inch".
func tally(words []string) (text string, kinds int) {
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
			text = phrase.Count(n, "cluster")
		} else {
			text += "; " + strconv.Itoa(n)
		}
		text += " of " + w
	}
	return text, kinds
}

package view

import (
	"slices"
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// layerAbout returns which layer of its piece a card is about, 0 for the base.
func layerAbout(pc *count.PieceCount, c task.Card) int {
	layer, _ := pc.LayerOf(c.Key)
	return layer
}

// cardCluster draws one cluster of the card's piece: its kind, where it is, who made it, and the button that counts all
// up to it. It is nil for a card without clusters.
func cardCluster(f Frame, j job.Job, p plan.Plan, c task.Card) g.Node {
	pc, known := findPiece(p, c.Piece)
	at, has := clusterAt(f, &pc, layerAbout(&pc, c))
	if !known || !has {
		return nil
	}
	words, upTo := "", g.Node(nil)
	if at.number > 0 {
		made := p.Made(&pc, at.layer)
		words = "Not made yet."
		if made.Filled[at.number-1] {
			words = madeWords(f, j, &at, &made)
		}
		if n := at.missing(c, &made); n != 0 {
			label := "Mark up to here"
			if n < 0 {
				label = "Only up to here"
			}
			upTo = Act(f, Action{Act: "add", Entity: c.Key, N: Amount(n), Spot: "-upto"}, Plain, g.Text(label))
		}
	}
	return at.draw(f, words, upTo)
}

// missing returns how many more a card must count, so that all clusters up to the one shown are made, or their sections
// joined or put up; fewer than 0 where it counts more than that without a kind.
func (at *clusterShown) missing(c task.Card, made *plan.Made) int {
	if _, makes := at.piece.LayerOf(c.Key); makes {
		left := append([]int(nil), made.ByKind...)
		without := 0
		for _, kind := range at.laid.Sequence[:at.number] {
			if made.ByKind != nil && left[kind] > 0 {
				left[kind]--
			} else {
				without++
			}
		}
		return max(without-made.Plain(), -c.Made)
	}
	if section, _ := at.section(); at.layer == 0 && c.Count == len(at.piece.Sections) && section.Number > 0 {
		return section.Number - c.Made
	}
	return 0
}

// madeWords says who made the cluster: "Made by Rosa.", or "Made by Rosa or Sam." where a count by eye leaves it open.
func madeWords(f Frame, j job.Job, at *clusterShown, made *plan.Made) string {
	names := whoMade(f, j, at, made)
	if len(names) == 0 {
		return "Made."
	}
	for i := range names {
		if names[i] == "You" {
			names[i] = "you"
		}
	}
	return "Made by " + strings.Join(names, " or ") + "."
}

func whoMade(f Frame, j job.Job, at *clusterShown, made *plan.Made) (names []string) {
	kind := at.laid.Sequence[at.number-1]
	rank, plain := 0, 0 // clusters of the kind before it, and clusters before it that were made without a kind
	seen := make([]int, len(at.laid.Kinds))
	for i, k := range at.laid.Sequence[:at.number-1] {
		if seen[k]++; made.Filled[i] && (made.ByKind == nil || seen[k] > made.ByKind[k]) {
			plain++
		}
	}
	rank = seen[kind]
	keys := at.laid.Keys()
	byKind := made.ByKind != nil && rank < made.ByKind[kind]
	if !byKind {
		rank = plain
	}
	open := false
	var added []job.TallyEntry // what is left of each addition, in the order in which they came
	_, makers := at.piece.LaidOf(at.layer)
	for _, key := range makers {
		counted, more := j.State.Tally(key).Standing()
		if counted != nil {
			open = true
			names = addName(names, authorName(f.Role, counted.Author))
			more = j.State.Tally(key).Live()
		}
		for _, e := range more {
			if byKind == (e.Of == keys[kind]) && (byKind || !slices.Contains(keys, e.Of)) {
				added = pile(added, e)
				names = addName(names, authorName(f.Role, e.Author))
			}
		}
	}
	if open {
		return names
	}
	for _, e := range added {
		if rank -= int(e.Delta); rank < 0 {
			return []string{authorName(f.Role, e.Author)}
		}
	}
	return nil
}

// pile adds an addition to a list, or takes what it takes off from the last ones.
func pile(list []job.TallyEntry, e job.TallyEntry) []job.TallyEntry {
	for e.Delta < 0 && len(list) > 0 {
		last := &list[len(list)-1]
		if off := min(last.Delta, -e.Delta); off == last.Delta {
			list, e.Delta = list[:len(list)-1], e.Delta+off
		} else {
			last.Delta, e.Delta = last.Delta-off, 0
		}
	}
	if e.Delta > 0 {
		list = append(list, e)
	}
	return list
}

func addName(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

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

// whoMade returns the names of those who may have made the cluster: of who added it, or of all who counted where a
// count by eye leaves it open.
func whoMade(f Frame, j job.Job, at *clusterShown, made *plan.Made) (names []string) {
	kind := at.laid.Sequence[at.number-1]
	plain := 0 // clusters before it that were made without a kind
	seen := make([]int, len(at.laid.Kinds))
	for i, k := range at.laid.Sequence[:at.number-1] {
		if seen[k]++; made.Filled[i] && (made.ByKind == nil || seen[k] > made.ByKind[k]) {
			plain++
		}
	}
	keys := at.laid.Keys()
	byKind := made.ByKind != nil && seen[kind] < made.ByKind[kind]
	rank := plain // how many before it were counted as it was
	if byKind {
		rank = seen[kind]
	}
	var added []share
	open := false
	_, makers := at.piece.LaidOf(at.layer)
	for _, key := range makers {
		tally := j.State.Tally(key)
		if counted, _ := tally.Standing(); counted != nil {
			open, names = true, append(names, authorName(f.Role, counted.Author))
		}
		live := tally.Live()
		for i := range live {
			e := &live[i]
			if e.Of == keys[kind] == byKind && (byKind || !slices.Contains(keys, e.Of)) {
				added = pile(added, share{authorName(f.Role, e.Author), int(e.Delta)})
			}
		}
	}
	for _, one := range added {
		if rank -= one.n; rank < 0 && !open {
			return []string{one.who}
		}
		if !slices.Contains(names, one.who) {
			names = append(names, one.who)
		}
	}
	if !open {
		return nil
	}
	return names
}

// share is what is left of one person's addition.
type share struct {
	who string
	n   int
}

// pile adds an addition to those before it, or takes what it takes off from the last ones.
func pile(list []share, add share) []share {
	for add.n < 0 && len(list) > 0 {
		last := &list[len(list)-1]
		off := min(last.n, -add.n)
		add.n += off
		if last.n -= off; last.n == 0 {
			list = list[:len(list)-1]
		}
	}
	if add.n > 0 {
		list = append(list, add)
	}
	return list
}

package page

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// handPiece picks the kind of some clusters of a piece by hand: of the one shown, of all from it to the next of another
// kind, or of every second or third from it on.
func handPiece(r *request, p job.Piece) *Reply {
	c := countOf(r.plan(), p.ID)
	keys := count.ParseHand(p.Hand, len(c.Laid.Sequence))
	n, err := strconv.Atoi(strings.TrimSpace(r.in.Get("cluster")))
	kind := r.in.Get(view.FieldKind)
	choice := slices.IndexFunc(c.Laid.Choices, func(k count.ClusterKind) bool { return k.Key() == kind })
	if err != nil || n < 1 || n > len(keys) || kind != "" && choice < 0 {
		return r.trouble(view.LabelFailed, "The piece was changed meanwhile.", view.LabelLookAgain)
	}
	pickFrom(keys, c.Laid.Sequence, n-1, r.in.Get(view.FieldReach), kind)
	change := job.Put("piece/"+p.ID, "hand", count.FormatHand(keys))
	if job.CheckChange(change) != nil {
		return r.trouble(view.LabelFailed, "Too many picks for one piece.", "Pick longer stretches of one kind.")
	}
	said := "Cluster " + strconv.Itoa(n) + " is scattered again."
	if choice >= 0 {
		said = "Picked " + c.Laid.Choices[choice].Words() + "."
	}
	return r.save([]job.Change{change}, r.at(address.Piece, p.ID)+"?cluster="+strconv.Itoa(n), said)
}

// pickFrom picks a kind for a cluster and those after it that are within reach.
func pickFrom(keys []string, sequence []int, from int, reach, kind string) {
	to, step := from+1, 1
	switch reach {
	case view.ReachRun:
		for to < len(sequence) && sequence[to] == sequence[from] {
			to++
		}
	case view.ReachSecond:
		to, step = len(keys), 2
	case view.ReachThird:
		to, step = len(keys), 3
	}
	for i := from; i < to; i += step {
		keys[i] = kind
	}
}

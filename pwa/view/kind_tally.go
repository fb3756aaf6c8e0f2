package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/task"
)

// kindTally draws the kinds of cluster that a card makes, how many of each are made, and buttons that count one.
func kindTally(f Frame, p plan.Plan, c task.Card) g.Node {
	pc, known := findPiece(p, c.Piece)
	layer, makes := pc.LayerOf(c.Key)
	if !known || !makes {
		return nil
	}
	laid, _ := pc.LaidOf(layer)
	made := p.Made(&pc, layer)
	full := made.Total >= len(laid.Deals)
	button := func(k *count.ClusterKind, n int, sign string) g.Node {
		return Act(f, Action{Act: "add", Entity: c.Key, N: Amount(n), Text: k.Key(), Spot: "-" + k.Name}, Plain,
			h.Aria("label", sign+" "+k.Name), g.Text(sign))
	}
	plain := g.Node(nil)
	if n := made.Plain(); made.ByKind != nil && n > 0 && !full {
		plain = Soft(number(n) + " more without a kind.")
	}
	return clusterKinds(laid, func(i int) (string, g.Node) {
		k := &laid.Kinds[i]
		of, own := 0, 0
		if made.ByKind != nil {
			of = made.ByKind[i]
		}
		if c.ByKind != nil {
			own = c.ByKind[i]
		}
		return madeOf(k, of, full), h.Span(h.Class("counts"),
			g.If(own > 0, button(k, -1, "−1")),
			g.If(of < k.Clusters && !full && k.Key() != "", button(k, 1, "+1")))
	}, plain)
}

// madeOf says how many of a kind are made: "9 x A", "6 of 9 A", "All 9 A".
func madeOf(k *count.ClusterKind, made int, all bool) string {
	n := strconv.Itoa(k.Clusters)
	switch {
	case all || made >= k.Clusters:
		return "All " + n + " " + k.Name
	case made == 0:
		return timesMade(k)
	}
	return strconv.Itoa(made) + " of " + n + " " + k.Name
}

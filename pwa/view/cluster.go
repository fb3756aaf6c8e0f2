package view

import (
	"strconv"
	"strings"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
)

// clusterForm is the id of the form that shows a cluster.
const clusterForm = "cluster-form"

// clusterShown is the cluster of a piece's base, or of a layer on it, that a page shows.
type clusterShown struct {
	piece  *count.PieceCount
	laid   *count.Laid
	layer  int
	number int // from 1; 0: none
	typed  string
	wrong  string // why it shows none; "" if nobody asked
}

// clusterAt reads which cluster of a piece's base, or of a layer on it, the page shows. It reports false for a piece
// without clusters.
func clusterAt(f Frame, pc *count.PieceCount, layer int) (clusterShown, bool) {
	at := clusterShown{piece: pc, layer: layer, typed: strings.TrimSpace(f.Cluster)}
	at.laid, _ = pc.LaidOf(layer)
	last := len(at.laid.Sequence)
	if last == 0 || layer == 0 && pc.Clusters == 0 {
		return at, false
	}
	if n, err := strconv.Atoi(at.typed); err == nil && n >= 1 && n <= last {
		at.number = n
	} else if at.typed != "" {
		at.wrong = "Type a whole number from 1 to " + number(last) + "."
	}
	return at, true
}

// mark has the picture show the cluster, and lets its balloons be tapped.
func (at *clusterShown) mark(v *Front, whole *look.Look) {
	v.Form, v.Layer, v.Picked, v.Whole = clusterForm, at.layer, at.number, whole
}

// clusterQuery is the query of a page that shows a cluster.
func (f Frame) clusterQuery() string {
	if _, err := strconv.Atoi(f.Cluster); err != nil {
		return ""
	}
	return "?cluster=" + f.Cluster
}

// draw draws the form that asks for a cluster and says what the one shown is; words and further parts stand below what
// it is made of.
func (at *clusterShown) draw(f Frame, words string, more ...g.Node) g.Node {
	said := g.Node(nil)
	if at.number > 0 {
		k := &at.laid.Kinds[at.laid.Sequence[at.number-1]]
		title := "Cluster " + number(at.number) + " of " + number(len(at.laid.Sequence))
		if len(at.laid.Kinds) > 1 {
			title += ": kind " + k.Name
		}
		said = g.Group{kindPicture(k, widestKind(at.laid.Kinds), nil),
			RowText(title, Small(strings.TrimSpace(k.Words()+". "+at.place()+" "+words)))}
	}
	return h.Div(h.ID("cluster"), h.Class("onecluster"),
		h.Form(h.Method("get"), h.Action(f.Path+"#cluster"), h.ID(clusterForm),
			h.Div(h.Class("said"), h.Role("status"), said),
			FieldBox("cluster-number", "Cluster number", at.wrong,
				h.Input(h.ID("cluster-number"), h.Type("text"), h.Name("cluster"), g.Attr("inputmode", "numeric"),
					h.AutoComplete("off"), h.Required(), h.Value(at.typed), invalid("cluster-number", at.wrong)),
				Submit(Plain, g.Text("Show")))),
		g.Iff(at.number > 0, func() g.Node {
			return ButtonRow(at.step(f, -1, "previous", "Previous"), at.step(f, 1, "next", "Next"), g.Group(more))
		}))
}

// foldedCluster draws the form that asks for a cluster where none is shown; nothing for nil.
func foldedCluster(cluster g.Node) g.Node {
	if cluster == nil {
		return nil
	}
	return Disclosure("set", "Tap a cluster, or type its number", cluster)
}

// step draws the button to a neighbour of the cluster.
func (at *clusterShown) step(f Frame, by int, id, label string) g.Node {
	to := at.number + by
	if to < 1 || to > len(at.laid.Sequence) {
		return nil
	}
	id = "cluster-" + id
	return ButtonLink(f.Path+"?cluster="+strconv.Itoa(to)+"#"+id, Plain, h.ID(id), g.Text(label))
}

// place says where the cluster is: "Section 2, 3rd from its start." What sits on a base has no place in the order.
func (at *clusterShown) place() string {
	if at.layer > 0 {
		return ""
	}
	s, from := at.section()
	where := ordinal(at.number-from) + " from its start."
	if s.Number > 0 && len(at.piece.Sections) > 1 {
		where = "Section " + strconv.Itoa(s.Number) + ", " + where
	}
	if s.Base > 0 {
		where = "Base " + strconv.Itoa(s.Base) + ". " + where
	}
	return where
}

// section returns the section that the cluster is in, and how many clusters come before it; an empty one if the piece
// has no sections.
func (at *clusterShown) section() (section count.Section, from int) {
	for _, s := range at.piece.Sections {
		if at.number <= from+s.Clusters {
			return s, from
		}
		from += s.Clusters
	}
	return section, 0
}

// ordinal writes a place in an order: "3rd", "11th".
func ordinal(n int) string {
	ending := "th"
	if last := n % 10; last >= 1 && last <= 3 && n/10%10 != 1 {
		ending = [...]string{"st", "nd", "rd"}[last-1]
	}
	return strconv.Itoa(n) + ending
}

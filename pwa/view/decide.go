package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/plan/count"
	"garlandry/calc/cluster"
)

// toDecide draws the questions without an answer, one line each that opens the answers. It draws nothing if there are
// none. Answers about clusters have a picture of what they make, to choose by eye.
func toDecide(f Frame, notes []count.Note) g.Node {
	return decisions(f, "To decide", "decisions", notes, count.Note.Open)
}

// decided draws the questions with an answer, each folded with the answer beside it.
func decided(f Frame, notes []count.Note) g.Node {
	return decisions(f, "Decided", "decided", notes, func(n count.Note) bool { return n.Asks() && !n.Open() })
}

func decisions(f Frame, title, id string, notes []count.Note, which func(count.Note) bool) g.Node {
	var rows []g.Node
	for _, n := range notes {
		if which(n) {
			rows = append(rows, decision(f, n))
		}
	}
	if len(rows) == 0 {
		return nil
	}
	return PanelOf("decisions", title, "", h.ID(id), List(rows...))
}

// decision draws one question as a line. It opens to its text, with buttons for who may decide.
func decision(f Frame, n count.Note) g.Node {
	half := halfOf(n.Options)
	icon, below := "tick", n.PickedLabel()
	if n.Open() {
		icon, below = "ask", ""
		if len(n.Parts) > 1 {
			below = Many(len(n.Parts), "piece")
		}
	}
	return h.Li(h.Details(h.Class("decision"), h.ID(domID("note", n.Key)),
		h.Summary(Icon(icon), RowText(orElse(n.Title, firstSentence(n.Text)), g.If(below != "", Small(below))),
			Icon("open")),
		h.Div(h.Class("opened"), h.P(g.Text(n.Text)),
			g.If(f.Owns(),
				ButtonRow(
					g.Map(n.Options, func(o count.Option) g.Node {
						picked := o.Value == n.Picked
						return ActionForm(f,
							Action{Act: "choose", Entity: "choice/" + n.Key, Text: o.Value, TextGiven: true}, "",
							Submit(Plain, h.Aria("pressed", strconv.FormatBool(picked)),
								g.If(picked, Icon("tick")),
								g.Iff(half > 0 && o.Cluster != nil, func() g.Node { return kindPicture(o.Cluster, half, nil) }),
								g.Text(o.Label)))
					}))),
			g.If(!f.Owns() && n.Open(), Soft("The owner decides.")))))
}

// halfOf returns half the size of the largest cluster of the answers in millimetres; 0 if none has one.
func halfOf(options []count.Option) float64 {
	half := 0.0
	for _, o := range options {
		if o.Cluster != nil {
			half = max(half, cluster.BallMM(o.Cluster.Recipe)/2)
		}
	}
	return half
}

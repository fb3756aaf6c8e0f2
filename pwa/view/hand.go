package view

import (
	"strconv"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
)

// The fields of the form that picks a cluster's kind by hand, and how far a pick reaches.
const (
	FieldKind   = "pick"
	FieldReach  = "reach"
	ReachRun    = "run"
	ReachSecond = "2"
	ReachThird  = "3"
)

var reaches = []job.Choice{{Value: "", Label: "This one"}, {Value: ReachRun, Label: "All up to the next kind"},
	{Value: ReachSecond, Label: "Every second from here"}, {Value: ReachThird, Label: "Every third from here"}}

// handPicker draws the kinds that the cluster shown can be of, each a button that picks it.
func handPicker(f Frame, p PiecePage, at *clusterShown) g.Node {
	switch {
	case p.Count.Piece.Pattern != job.ByHand:
		return nil
	case !p.ByHand:
		return Soft("Save first, then pick each cluster's kind here.")
	}
	choices := at.laid.Choices
	half := widestKind(choices)
	picks := make(g.Group, len(choices))
	now := at.laid.Sequence[at.number-1]
	for i := range choices {
		k := &choices[i]
		picks[i] = Submit(Plain, h.Name(FieldKind), h.Value(k.Key()), h.Aria("pressed", strconv.FormatBool(i == now)),
			kindPicture(k, half, nil), RowText(k.Name, Small(k.Words())))
	}
	return PostForm(ByCore, "hand-form", f.Path, h.Class("handform"),
		Hidden(FieldAct, "hand"), Hidden("cluster", strconv.Itoa(at.number)),
		FieldBox("hand-reach", "Pick a kind for", "", h.Select(h.ID("hand-reach"), h.Name(FieldReach),
			options("", reaches))),
		h.Div(h.Class("handpicks"), picks),
		Submit(Quiet, h.Name(FieldKind), h.Value(""), g.Text("Back to scattered")))
}

package view

import (
	"encoding/json"

	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/app/job"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
)

// TookOn returns the minutes that somebody typed in for a card, as text; "" if nobody did.
func TookOn(j job.Job, key string) string {
	var minutes float64
	if json.Unmarshal(j.State.Register(key, "took").Value(), &minutes) != nil || minutes <= 0 {
		return ""
	}
	return measure.FormatNumber(minutes, 1)
}

// tookPanel asks for the minutes that a done card took. The table's cards learn from it.
func tookPanel(f Frame, j job.Job, c task.Card) g.Node {
	family, _ := job.SplitCard(c.Key)
	if !c.Done || c.Gone || task.Family(family) == task.FamilyAdded {
		return nil
	}
	id, with := domID("took", c.Key), "With one pair of hands. Empty: from ticks and counts."
	if c.HandsMin > 1 {
		with = "With " + Many(c.HandsMin, "pair") + " of hands. Empty: from ticks and counts."
	}
	return Panel("", "", h.ID("took"),
		ActionForm(f, Action{Act: "took", Entity: c.Key}, "inline",
			h.Label(h.For(id), g.Text("Took, minutes")),
			h.Input(h.ID(id), h.Type("text"), h.Name(FieldText), g.Attr("inputmode", "decimal"), h.AutoComplete("off"),
				h.Value(TookOn(j, c.Key)), h.Aria("describedby", id+"-help")),
			Submit(Plain, g.Text(labelSave))),
		h.P(h.Class("help"), h.ID(id+"-help"), g.Text(with)))
}

package page

import (
	"strings"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/view"
)

// adoptRates plans with measured rates from now on, here and in upcoming jobs. One tap takes it back.
func (r *request) adoptRates(p *plan.Plan, chosen []forecast.Comparison) *Reply {
	changes := forecast.AdoptRates(&r.job, p, chosen)
	if len(changes) == 0 {
		return r.trouble(view.LabelNotOffered, "The job has changed. There is nothing new to use.",
			"Look at the clock again.")
	}
	flash := "Your rates now follow what was measured"
	coming := r.upcomingWrites(changes)
	if len(coming) > 0 {
		flash += ", here and in " + view.Many(len(coming), "upcoming job")
	}
	reply := r.save(changes, r.at(address.Clock), flash+".")
	reply.Writes = append(reply.Writes, coming...)
	keys := make([]string, len(chosen))
	for i := range chosen {
		keys[i] = chosen[i].Key()
	}
	reply.Undo = &view.Action{Act: "unrate", Entity: "override/rates", Text: strings.Join(keys, ",")}
	return reply
}

// unrate puts back what was there before measured rates were adopted, here and in upcoming jobs.
func (r *request) unrate(d action) result {
	if r.Visitor.Role != job.Owner {
		return result{wrong: view.LabelCannot}
	}
	drop := func(j *job.Job, note string) (changes []job.Change) {
		for _, key := range strings.Split(d.text, ",") {
			changes = append(changes, forecast.DropRates(j, key, note)...)
		}
		return changes
	}
	note := forecast.UsedNote(&r.job)
	changes := drop(&r.job, note)
	if len(changes) == 0 {
		return result{wrong: view.LabelChangedSince}
	}
	var others []Write
	for _, j := range r.upcoming() {
		if back := drop(&j, noteFromLast(note)); len(back) > 0 {
			others = append(others, Write{Job: j.ID, Changes: back})
		}
	}
	return result{change: changes[0], more: changes[1:], others: others, flash: "Your rates are as before."}
}

// took stores how long a card took, or with no text that ticks and counts tell it.
func (r *request) took(d action) result {
	if !job.ValidKey(d.entity) || !job.IsCard(d.entity) {
		return result{wrong: notOnList}
	}
	undo := &view.Action{Act: "took", Entity: d.entity, Text: view.TookOn(r.job, d.entity), TextGiven: true}
	if d.text == "" {
		return result{change: job.Put(d.entity, "took", nil), flash: "The time is now from ticks and counts.",
			undo: undo}
	}
	minutes, err := measure.ParseNumber(strings.TrimSpace(strings.TrimSuffix(d.text, "min")))
	if err != nil || minutes < 1 || minutes > 1440 {
		return result{wrong: "How many minutes did it take? From 1 to 1440; you typed " + quoted(d.text) + "."}
	}
	return result{change: job.Put(d.entity, "took", minutes), flash: "Noted: " + r.nameOf(d.entity) + " took " +
		measure.FormatMinutes(minutes) + ".", undo: undo}
}

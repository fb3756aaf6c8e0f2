package page

import (
	"strconv"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

func (r *request) packed(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	line, known := packLine(r.plan(), d.entity)
	if !d.given {
		d.n = 1
		if known {
			d.n = line.Need
		}
	}
	if d.n < 0 {
		return result{wrong: view.LabelPackedRange}
	}
	return result{change: job.Put(d.entity, "have", d.n),
		flash: howMany(view.PackedWord(r.job), d.n, line.Need) + r.nameOf(d.entity) + ".",
		undo:  &view.Action{Act: "unpack", Entity: d.entity, N: view.Amount(r.job.Packed(d.entity))}}
}

func (r *request) unpacked(d action) result {
	if !job.ValidKey(d.entity) {
		return result{wrong: notOnList}
	}
	if d.n < 0 {
		return result{wrong: view.LabelPackedRange}
	}
	return result{change: job.Put(d.entity, "have", d.n), flash: "Taken out: " + r.nameOf(d.entity) + ".",
		undo: &view.Action{Act: "pack", Entity: d.entity, N: view.Amount(r.job.Packed(d.entity))}}
}

// unneeded sets a line of the pack list aside.
func (r *request) unneeded(d action) result { return r.setAside(d, true, "Not needed: ", "needed") }

// needed puts a line back that was set aside.
func (r *request) needed(d action) result { return r.setAside(d, false, "Needed again: ", "unneeded") }

func (r *request) setAside(d action, aside bool, says, undo string) result {
	if !job.ValidKey(d.entity) || !job.IsPack(d.entity) {
		return result{wrong: notOnList}
	}
	return result{change: job.Put(d.entity, "unneeded", aside), flash: says + r.nameOf(d.entity) + ".",
		same: r.job.Unneeded(d.entity) == aside, undo: &view.Action{Act: undo, Entity: d.entity}}
}

// buy records how many of a line are bought.
func (r *request) buy(d action) result {
	if !job.ValidKey(d.entity) || !job.IsPack(d.entity) {
		return result{wrong: notOnList}
	}
	if d.n < 0 || !d.given {
		return result{wrong: "How many are bought? A whole number from 0 to 1000000."}
	}
	need, name := 0, r.nameOf(d.entity)
	for _, l := range shopLines(r) {
		if l.Key == d.entity {
			need, name = l.Need, l.Name
		}
	}
	return result{change: job.Put(d.entity, "bought", d.n), flash: howMany("Bought", d.n, need) + name + ".",
		undo: &view.Action{Act: "buy", Entity: d.entity, N: view.Amount(r.job.Bought(d.entity))}}
}

// howMany says how far a line is: "Packed 2 of 3: ". All is 0 if the line is not in the plan.
func howMany(word string, n, all int) string {
	if all == 0 {
		return word + " " + strconv.Itoa(n) + ": "
	}
	return word + " " + strconv.Itoa(n) + " of " + strconv.Itoa(all) + ": "
}

// countWords says how far a card is after a count by eye: "Made 12 of 22: Make the clusters for door."
func (r *request) countWords(d action) string {
	if c, known := view.FindCard(r.plan(), d.entity); known && c.Count > 0 {
		return howMany(view.TickWord(d.entity), d.n, c.Count) + c.Title + "."
	}
	return "Counted: " + measure.FormatNumber(float64(d.n), 0) + "."
}

// returned records how many of a line are back in the car.
func (r *request) returned(d action) result {
	if !job.ValidKey(d.entity) || !job.IsPack(d.entity) {
		return result{wrong: notOnList}
	}
	if d.n < 0 || !d.given {
		return result{wrong: "How many are back in the car? A whole number from 0 to 1000000."}
	}
	flash := view.LabelInCar
	if d.n == 0 {
		flash = view.LabelNotInCar
	}
	return result{change: job.Put(d.entity, "back", d.n), flash: flash + r.nameOf(d.entity) + ".",
		undo: &view.Action{Act: "back", Entity: d.entity, N: view.Amount(r.job.Back(d.entity))}}
}

package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func shop(a *ask) *Reply {
	return a.draw("Shop", view.Shop(a.frame, a.job, packing.Shop(a.job, a.plan().Pack), form.NewState()))
}

func saveShop(a *ask) *Reply {
	lines := packing.Shop(a.job, a.plan().Pack)
	state := form.State{Values: a.in, Errors: map[string]string{}}
	var changes []job.Change
	for _, id := range a.in.Under(view.BagsInput("")) {
		if packing.Bought(id) {
			changes = append(changes, readBags(a.in, id, soldAs(lines, id), state)...)
		}
	}
	if !state.OK() {
		return a.wrong("Shop", view.Shop(a.frame, a.job, lines, state))
	}
	return a.wrote(changes, a.at(address.Shop), "Saved. The bags of the list follow.")
}

// soldAs names what an id is of.
func soldAs(lines []packing.ShopLine, id string) string {
	for i := range lines {
		if lines[i].ID == id {
			return lines[i].Name
		}
	}
	return strings.TrimPrefix(id, "latex/") + "-inch"
}

// readBags reads what bags hold and cost, where it was typed anew: what they hold for everybody, what they cost for the
// owner.
func readBags(v form.Values, id, name string, state form.State) []job.Change {
	key := view.BagsInput(id)
	if !v.Has(key) || v.Get(key) == v.Get(form.Was(key)) {
		return nil
	}
	var holds, prices any
	if typed := strings.TrimSpace(v.Get(key)); typed != "" {
		bags, priced, err := packing.ReadBags(typed)
		if err != nil {
			state.Fail(key, name+": "+err.Error()+".")
			return nil
		}
		holds = packing.BagsText(bags, false)
		if priced {
			prices = packing.BagsText(bags, true)
		}
	}
	changes := []job.Change{job.Put("choice/"+packing.BagsOf+id, "pick", holds), job.Put("own/prices/"+id, "bags", prices)}
	for _, c := range changes {
		if job.CheckChange(c) != nil {
			state.Fail(key, name+": those are more bags than can be kept: leave some out.")
			return nil
		}
	}
	return changes
}

package page

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/packing"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func shop(r *request) *Reply {
	return r.draw("Shop", view.Shop(r.frame, r.job, shopLines(r), form.NewState()))
}

func shopLines(r *request) []packing.ShopLine {
	p := r.plan()
	return packing.Shop(r.job, p.Balloons, p.Pack)
}

func saveShop(r *request) *Reply {
	lines := shopLines(r)
	state := form.State{Values: r.in, Errors: map[string]string{}}
	var changes []job.Change
	for _, id := range r.in.Under(view.BagsInput("")) {
		if packing.Bought(id) {
			changes = append(changes, readBags(r.in, id, soldAs(lines, id), state)...)
		}
	}
	if !state.OK() {
		return r.invalid("Shop", view.Shop(r.frame, r.job, lines, state))
	}
	return r.save(changes, r.at(address.Shop), "Saved. The bags are updated.")
}

// soldAs returns the name of an id.
func soldAs(lines []packing.ShopLine, id string) string {
	for i := range lines {
		if lines[i].ID == id {
			return lines[i].Name
		}
	}
	return strings.TrimPrefix(id, "latex/") + "-inch"
}

// readBags reads bag sizes and prices if they were changed: sizes for everybody, prices for the owner only.
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
			state.Fail(key, name+": too many bags, leave some out.")
			return nil
		}
	}
	return changes
}

package page

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

func shop(a *ask) *Reply {
	lines := plan.Shop(a.job, a.plan())
	return a.draw("Shop", view.Shop(a.frame, a.job, lines, a.shopState(lines)))
}

// shopIDs are the ids under which bags may be written down: those of the lines and of their sizes.
func shopIDs(lines []plan.ShopLine) []string {
	var ids []string
	last := ""
	for i := range lines {
		if size, balloon := plan.SizeOf(lines[i].ID); balloon && size != last {
			ids = append(ids, size)
			last = size
		}
		ids = append(ids, lines[i].ID)
	}
	return ids
}

// shopState gives what stands in the form: the owner's own bags, empty where the usual ones hold.
func (a *ask) shopState(lines []plan.ShopLine) form.State {
	state := form.NewState()
	for _, id := range shopIDs(lines) {
		own := a.job.Prices[id]
		if own == "" {
			own = a.job.Choices[plan.BagsOf+id]
		}
		for _, key := range []string{view.BagsInput(id), form.Was(view.BagsInput(id))} {
			state.Values.Set(key, own)
		}
	}
	return state
}

func saveShop(a *ask) *Reply {
	lines := plan.Shop(a.job, a.plan())
	state := a.shopState(lines)
	for key, list := range a.in {
		state.Values[key] = list
	}
	var changes []job.Change
	for _, id := range a.in.Under(view.BagsInput("")) {
		if listed(shopIDs(lines), id) || listed(latexSizes(), id) { // a calculator may send a size that no piece has yet
			changes = append(changes, readBags(a.in, id, soldAs(lines, id), state)...)
		}
	}
	if !state.OK() {
		return a.wrong("Shop", view.Shop(a.frame, a.job, lines, state))
	}
	return a.wrote(changes, a.at("shop"), "Saved. The bags of the list follow.")
}

// soldAs names what an id is of.
func soldAs(lines []plan.ShopLine, id string) string {
	for i := range lines {
		if lines[i].ID == id {
			return lines[i].Name
		}
	}
	return strings.TrimPrefix(id, "latex/") + "-inch"
}

func listed(ids []string, id string) bool {
	for _, have := range ids {
		if have == id {
			return true
		}
	}
	return false
}

// latexSizes are the ids of all sizes of balloon.
func latexSizes() []string {
	var ids []string
	for _, size := range job.Sizes {
		ids = append(ids, "latex/"+strconv.Itoa(size))
	}
	return ids
}

// readBags reads what bags hold and cost, where it was typed anew: what they hold for everybody, what they cost for the owner.
func readBags(v form.Values, id, name string, state form.State) []job.Change {
	key := view.BagsInput(id)
	if !v.Has(key) || v.Get(key) == v.Get(form.Was(key)) {
		return nil
	}
	var holds, prices any
	if typed := strings.TrimSpace(v.Get(key)); typed != "" {
		bags, priced, err := plan.ReadBags(typed)
		if err != nil {
			state.Fail(key, name+": "+err.Error()+".")
			return nil
		}
		holds = plan.BagsText(bags, false)
		if priced {
			prices = plan.BagsText(bags, true)
		}
	}
	changes := []job.Change{job.Put("choice/"+plan.BagsOf+id, "pick", holds), job.Put("own/prices/"+id, "bags", prices)}
	for _, c := range changes {
		if job.CheckChange(c) != nil {
			state.Fail(key, name+": those are more bags than can be kept: leave some out.")
			return nil
		}
	}
	return changes
}

package page

import (
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// list is a page that edits all entities of one noun.
type list struct {
	noun               string
	address            address.Page
	title, what, teach string
	lead               string
	fields             []string
	entries            func(j *job.Job) []entry
	check              func(j *job.Job, id string) []*job.FieldError // across fields, after the changes
	options            func(j *job.Job) map[string][]job.Choice      // to choose from, by field
	starters           func(j *job.Job) []job.Colour                 // added with one tap
	other              string                                        // what an empty list takes from another job
	within             string                                        // the piece whose layers it lists
	begin              func(entity string) []job.Change              // what a new one has beside its fields
	beside             func(*outcome) view.Node                      // drawn anew as one types

	kind  string                     // the field that says which others are asked; "": none
	asked func(kind string) []string // the fields that a kind has; nil: all, of any kind

	usual func(kind string) []job.Change // what a new one of a kind usually is, beside the defaults of its fields
}

// entry is one entity of a list.
type entry struct {
	id, title, below string
	order            float64
	colour           *job.Colour
}

// outcome is a form of a list that has errors, or into which one types.
type outcome struct {
	id      string // empty: the form for a new one
	state   form.State
	changes []job.Change // while one types: of what is typed so far
	wrong   string       // and what is wrong with it
}

func (l *list) job() *job.Noun { return nounOf(l.noun + "/x") }

// at returns the list's own address.
func (l *list) at(r *request) string {
	if l.within != "" {
		return r.at(l.address, l.within)
	}
	return r.at(l.address)
}

func (l *list) page(r *request) *Reply {
	kind := r.in.Get(l.kind)
	if l.kind == "" || !l.known(kind) {
		return l.draw(r, nil)
	}
	if id := r.in.Get("id"); l.has(&r.job, id) {
		return l.drawAs(r, id, kind, nil)
	}
	return l.drawNew(r, kind, nil)
}

func (l *list) act(r *request) *Reply {
	id := r.in.Get("id")
	entity, gone := l.noun+"/"+id, false
	switch r.in.Get(view.FieldAct) {
	case "add":
		return l.add(r)
	case "start":
		return l.start(r, id)
	case "take":
		return l.take(r, id)
	case "save", "remove", "up", "down":
		gone = r.in.Get(view.FieldAct) == "save" && r.bringBack(entity)
		if !l.has(&r.job, id) {
			return r.trouble(view.LabelRemoved, "Somebody may have removed it.", view.LabelLookAgain)
		}
	}
	switch r.in.Get(view.FieldAct) {
	case "save":
		return l.save(r, id, gone)
	case "remove":
		reply := r.save([]job.Change{job.Put(entity, "removed", true)}, l.at(r), "Removed "+l.name(&r.job, id)+".")
		reply.Undo = &view.Action{Act: "restore", Entity: entity}
		return reply
	case "up", "down":
		return r.save(moved(l.noun, l.entries(&r.job), id, r.in.Get(view.FieldAct) == "up"), l.at(r), "Moved.")
	}
	return r.trouble(view.LabelFailed, view.LabelCannot,
		view.LabelGoBack)
}

func (l *list) has(j *job.Job, id string) bool {
	return slices.ContainsFunc(l.entries(j), func(e entry) bool { return e.id == id })
}

func (l *list) name(j *job.Job, id string) string {
	for _, e := range l.entries(j) {
		if e.id == id {
			return e.title
		}
	}
	return id
}

// nameAfter returns the name of an entity after the changes.
func (l *list) nameAfter(r *request, changes []job.Change, id string) string {
	tried := job.Try(r.job, changes)
	return l.name(&tried, id)
}

func (l *list) add(r *request) *Reply {
	typed := r.in.Within("new.")
	kind := typed.Get(l.kind)
	if l.kind != "" && !l.known(kind) {
		r.alert = "Say first what it is. Nothing was added."
		reply := l.draw(r, nil)
		reply.Status = statusWrong
		return reply
	}
	name := typed.Get("name")
	if name == "" {
		name = typed.Get("text")
	}
	id := r.newID(name)
	changes, state := form.Entity(l.job(), l.noun+"/"+id, l.fieldsOf(kind), typed, r.frame.Units)
	if state.OK() {
		changes = append(filledOnly(changes), job.Put(l.noun+"/"+id, "order", after(l.entries(&r.job))))
		if l.kind != "" {
			changes = append(changes, job.Put(l.noun+"/"+id, l.kind, kind))
		}
		if l.begin != nil {
			changes = append(changes, l.begin(l.noun+"/"+id)...)
		}
		state = l.together(r, id, changes, state)
	}
	switch {
	case !state.OK() && l.kind != "":
		return l.drawNew(r, kind, &state)
	case !state.OK():
		return l.draw(r, &outcome{state: state})
	}
	return r.save(changes, l.at(r), "Added "+l.nameAfter(r, changes, id)+".")
}

// save writes what was typed. Gone means that somebody removed the entity meanwhile.
func (l *list) save(r *request, id string, gone bool) *Reply {
	typed, fields := r.in.Within(id+"."), l.fields
	kind, changed := l.newKind(r, id, typed)
	if changed {
		fields = l.fieldsOf(kind)
	}
	changes, state := form.Entity(l.job(), l.noun+"/"+id, fields, typed, r.frame.Units)
	if state.OK() {
		if changed {
			changes = append(changes, l.asKind(r, id, kind)...)
		}
		state = l.together(r, id, changes, state)
	}
	if gone {
		changes, state = restoring(l.noun+"/"+id, changes, state)
	}
	switch {
	case !state.OK() && changed:
		return l.drawAs(r, id, kind, &state)
	case !state.OK():
		return l.draw(r, &outcome{id: id, state: state})
	}
	return r.save(changes, l.at(r), "Saved "+l.nameAfter(r, changes, id)+".")
}

func (l *list) together(r *request, id string, changes []job.Change, state form.State) form.State {
	if l.check == nil {
		return state
	}
	tried := job.Try(r.job, changes)
	return state.Together(l.check(&tried, id), l.fields)
}

// start adds one of the offered colours.
func (l *list) start(r *request, id string) *Reply {
	if l.starters != nil {
		for _, c := range l.starters(&r.job) {
			if c.ID == id {
				entity := "colour/" + r.newID(c.Name)
				return r.save(append(colourChanges(entity, c), job.Put(entity, "order", after(l.entries(&r.job)))),
					l.at(r), "Added "+c.Name+".")
			}
		}
	}
	return r.trouble(view.LabelNotOffered, "It is on the list already.", view.LabelLookAgain)
}

// draw answers with the page. Left is the form with errors, nil for none.
func (l *list) draw(r *request, left *outcome) *Reply {
	p := l.bare(r)
	for _, e := range l.entries(&r.job) {
		item := view.ListItem{ID: e.id, Title: e.title, Below: e.below,
			State: form.Fill(l.job(), r.job.State, l.noun+"/"+e.id, l.fields, r.frame.Units)}
		if left != nil && left.id == e.id {
			item.State, item.Open = left.state, true
		}
		item.Fields = l.shown(r, e.id, item.State)
		if l.kind != "" {
			item.Kind = l.kindOf(r, e.id)
		}
		if e.colour != nil {
			item.Mark = view.Swatch(*e.colour)
		}
		p.Items = append(p.Items, item)
	}
	p.Fresh = form.Blank(l.job(), l.fields, r.frame.Units)
	if left != nil && left.id == "" {
		p.Fresh, p.FreshOpen = left.state, true
	}
	if l.starters != nil {
		p.Quick = view.Starters(p.To, l.starters(&r.job))
	}
	if l.other != "" && len(p.Items) == 0 {
		p.Quick = view.TakeFrom(p.To, l.other, l.others(r))
	}
	if l.beside != nil {
		p.Beside, p.Colours = l.beside(left), r.job.Colours
	}
	reply := r.draw(l.title, view.EditList(r.frame, p))
	reply.Forms = p.Forms()
	if left != nil {
		reply.Status = statusWrong
	}
	return reply
}

// filledOnly leaves out the changes to empty fields, for a new entity.
func filledOnly(changes []job.Change) []job.Change {
	return slices.DeleteFunc(slices.Clone(changes), func(c job.Change) bool { return string(c.Value) == "null" })
}

// after returns the order of a new last entry.
func after(entries []entry) float64 {
	last := 0.0
	for _, e := range entries {
		last = max(last, e.order)
	}
	return last + 1
}

// moved swaps an entity with the one above or below it, with as few changes as possible.
func moved(noun string, entries []entry, id string, up bool) []job.Change {
	at := slices.IndexFunc(entries, func(e entry) bool { return e.id == id })
	to := at + 1
	if up {
		to = at - 1
	}
	if at < 0 || to < 0 || to >= len(entries) {
		return nil
	}
	low, high := entries[to].order-2, entries[to].order+2
	if up {
		high = entries[to].order
		if to > 0 {
			low = entries[to-1].order
		}
	} else {
		low = entries[to].order
		if to+1 < len(entries) {
			high = entries[to+1].order
		}
	}
	middle := (low + high) / 2
	if low < middle && middle < high && middle > -1e9 && middle < 1e9 {
		return []job.Change{job.Put(noun+"/"+id, "order", middle)}
	}
	entries[at], entries[to] = entries[to], entries[at]
	var changes []job.Change
	for i, e := range entries {
		if e.order != float64(i+1) {
			changes = append(changes, job.Put(noun+"/"+e.id, "order", i+1))
		}
	}
	return changes
}

// colourChanges returns the changes that make a colour of the palette.
func colourChanges(entity string, c job.Colour) []job.Change {
	return []job.Change{job.Put(entity, "name", c.Name), job.Put(entity, "value", c.Value),
		job.Put(entity, "finish", c.Finish), job.Put(entity, "sizes", c.Sizes)}
}

// sizesSay writes sizes for people: "5, 11, 18 in".
func sizesSay(sizes []int) string {
	var texts []string
	for _, s := range sizes {
		texts = append(texts, strconv.Itoa(s))
	}
	return strings.Join(texts, ", ") + " in"
}

// lengthOr writes a length with a word before it, nothing for none.
func lengthOr(word string, mm float64, units measure.System) string {
	if mm <= 0 {
		return ""
	}
	return word + measure.FormatLength(mm, units)
}

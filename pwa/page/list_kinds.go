package page

import (
	"slices"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// kinds are what an entry of the list can be.
func (l *list) kinds() []job.Choice {
	field, _ := l.job().Field(l.kind)
	return field.Choices
}

func (l *list) known(kind string) bool {
	return slices.ContainsFunc(l.kinds(), func(c job.Choice) bool { return c.Value == kind })
}

// fieldsOf returns the fields that a kind is asked for.
func (l *list) fieldsOf(kind string) []string {
	if l.asked == nil {
		return l.fields
	}
	asked := l.asked(kind)
	return slices.DeleteFunc(slices.Clone(l.fields), func(name string) bool { return !slices.Contains(asked, name) })
}

// holds reports whether a field of an entry has a value that was set.
func (l *list) holds(r *request, id, name string) bool {
	switch string(r.job.State.Register(l.noun+"/"+id, name).Value()) {
	case "", "null", "0", `""`:
		return false
	}
	return true
}

// shown returns the fields of an entry's form: those of its kind, and any others that hold something or are wrong.
func (l *list) shown(r *request, id string, state form.State) []string {
	asked := l.fieldsOf(l.kindOf(r, id))
	return slices.DeleteFunc(slices.Clone(l.fields), func(name string) bool {
		return !slices.Contains(asked, name) && state.Errors[name] == "" && !l.holds(r, id, name)
	})
}

// kindOf returns what an entry is.
func (l *list) kindOf(r *request, id string) string {
	if l.kind == "" {
		return ""
	}
	return form.Fill(l.job(), r.job.State, l.noun+"/"+id, []string{l.kind}, r.frame.Units).Get(l.kind)
}

// newKind returns the kind that a form gives an entry, and whether it is another than before.
func (l *list) newKind(r *request, id string, typed form.Values) (string, bool) {
	was, kind := l.kindOf(r, id), typed.Get(l.kind)
	return kind, l.kind != "" && kind != was && l.known(kind)
}

// left lists the fields that hold something which another kind does not have.
func (l *list) left(r *request, id, kind string) []string {
	asked := l.fieldsOf(kind)
	return slices.DeleteFunc(slices.Clone(l.fields), func(name string) bool {
		return slices.Contains(asked, name) || !l.holds(r, id, name)
	})
}

// asKind returns the changes that make an entry another kind. They empty the fields that this kind does not have.
func (l *list) asKind(r *request, id, kind string) []job.Change {
	changes := []job.Change{job.Put(l.noun+"/"+id, l.kind, kind)}
	for _, name := range l.left(r, id, kind) {
		changes = append(changes, job.Put(l.noun+"/"+id, name, nil))
	}
	return changes
}

// bare returns the page of the list without its entries.
func (l *list) bare(r *request) view.ListPage {
	p := view.ListPage{Title: l.title, Lead: l.lead, What: l.what, To: l.at(r), Noun: l.job(), Fields: l.fields,
		Teach: l.teach}
	if l.options != nil {
		p.Options = l.options(&r.job)
	}
	if l.kind != "" {
		p.KindField, p.Kinds = l.kind, l.kinds()
	}
	return p
}

// drawNew answers with the form for a new entry of a kind. Left is the form with errors, nil for none.
func (l *list) drawNew(r *request, kind string, left *form.State) *Reply {
	p := l.bare(r)
	p.Fields = l.fieldsOf(kind)
	p.Fresh = form.Blank(l.job(), p.Fields, r.frame.Units)
	if l.usual != nil {
		for _, c := range l.usual(kind) {
			field, _ := l.job().Field(c.Field)
			p.Fresh.Values.Set(c.Field, form.Text(field, c.Value, r.frame.Units))
		}
	}
	return l.formOf(r, p, kind, left, view.NewEntry)
}

// drawAs answers with the form of an entry as another kind.
func (l *list) drawAs(r *request, id, kind string, left *form.State) *Reply {
	p := l.bare(r)
	p.Fields = l.fieldsOf(kind)
	p.Fresh = form.Fill(l.job(), r.job.State, l.noun+"/"+id, p.Fields, r.frame.Units)
	item := view.ListItem{ID: id, Title: l.name(&r.job, id)}
	for _, name := range l.left(r, id, kind) {
		field, _ := l.job().Field(name)
		item.Left = append(item.Left, field.Label)
	}
	p.Items = []view.ListItem{item}
	return l.formOf(r, p, kind, left, view.EntryAs)
}

func (l *list) formOf(r *request, p view.ListPage, kind string, left *form.State,
	draw func(view.Frame, view.ListPage) view.Node) *Reply {
	p.Kind = kind
	if left != nil {
		p.Fresh = *left
	}
	reply := r.draw(l.title, draw(r.frame, p))
	reply.Forms = p.Forms()
	if left != nil {
		reply.Status = statusWrong
	}
	return reply
}

package view

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/calc/measure"
	"garlandry/calc/stable"
	"garlandry/pwa/form"
)

// edit is one value that was written to a field of the design.
type edit struct {
	job.Reading
	entity, field string
	stands        bool            // it is the field's value now
	before        json.RawMessage // nil: there was none
}

func editsOf(entity, field string, r job.Register) []edit {
	var list []edit
	for i, reading := range r.Readings {
		e := edit{Reading: reading, entity: entity, field: field, stands: i == 0}
		if i+1 < len(r.Readings) {
			e.before = r.Readings[i+1].Value
		}
		list = append(list, e)
	}
	return list
}

// togetherMS is how far apart the stamps of one form's changes may be, in milliseconds. It is longer than a post takes
// and shorter than a person needs for the next form.
const togetherMS = 2000

// follows reports whether an edit came from the same form as the one before it. What waits on the phone is stamped by
// its number.
func (e edit) follows(before edit) bool {
	gap := e.Effective - before.Effective
	return e.Author == before.Author && e.Device == before.Device && (gap <= 1 || gap <= togetherMS && !e.Pending())
}

// joins reports whether an edit can be of one form with those it was asked for before: a form gives a field one value,
// and a removal stands alone.
func (e edit) joins(given map[string]bool) bool {
	field, removal, any := e.entity+" "+e.field, e.entity+" removed", e.entity+"/"
	if given[field] || given[removal] || field == removal && given[any] {
		return false
	}
	given[field], given[any] = true, true
	return true
}

// editEvents makes one event of what one form changed on one entity, and one of the start of the job.
func editEvents(j job.Job, p plan.Plan, role job.Role, edits []edit, names map[string]string) []Event {
	stable.Sort(edits, func(a, b edit) int { return a.Stamp.Compare(b.Stamp) })
	began := map[string]string{} // the id of the first edit of each entity
	for _, e := range edits {
		if _, known := began[e.entity]; !known {
			began[e.entity] = e.ID
		}
	}
	var list []Event
	for len(edits) > 0 {
		n, given := 0, map[string]bool{}
		for n < len(edits) && (n == 0 || edits[n].follows(edits[n-1])) && edits[n].joins(given) {
			n++
		}
		list = append(list, formEvents(j, p, role, edits[:n], names, began)...)
		edits = edits[n:]
	}
	return list
}

func formEvents(j job.Job, p plan.Plan, role job.Role, edits []edit, names, began map[string]string) []Event {
	var order []string
	groups := map[string][]edit{}
	started := false
	for _, e := range edits {
		if groups[e.entity] == nil {
			order = append(order, e.entity)
		}
		groups[e.entity] = append(groups[e.entity], e)
		started = started || e.entity == "brief" && e.field == "title" && e.before == nil
	}
	last := edits[len(edits)-1]
	if started {
		return []Event{
			{Stamp: last.Stamp, Who: authorName(role, last.Author), What: "Started the job",
				Of: orElse(j.Brief.Title, "Untitled job"), Detail: startedWith(order), Entity: "brief"},
		}
	}
	var list []Event
	for _, entity := range order {
		list = append(list, entityEvent(j, p, role, groups[entity], names, began[entity]))
	}
	return list
}

// startedWith says what a job started with: "4 colours, 3 pieces, 2 people".
func startedWith(entities []string) string {
	count := map[string]int{}
	for _, e := range entities {
		noun, _, _ := strings.Cut(e, "/")
		count[noun]++
	}
	var parts []string
	for _, x := range []struct{ noun, one, many string }{{"piece", "piece", "pieces"}, {"colour", "colour", "colours"},
		{"member", "person", "people"}, {"kit", "kit item", "kit items"}} {
		switch n := count[x.noun]; n {
		case 0:
		case 1:
			parts = append(parts, "1 "+x.one)
		default:
			parts = append(parts, strconv.Itoa(n)+" "+x.many)
		}
	}
	return strings.Join(parts, ", ")
}

// entityEvent returns the event of what one form changed on one entity. Undoing it leaves alone what was changed since.
func entityEvent(j job.Job, p plan.Plan, role job.Role, edits []edit, names map[string]string, began string) Event {
	last, entity := edits[len(edits)-1], edits[0].entity
	noun, known := job.FindNoun(entity)
	if !known {
		noun = &job.Noun{Fields: job.ProgressFields()}
	}
	for _, figure := range p.Figures {
		if "override/"+figure.Key == entity {
			own := FigureField(figure)
			own.Label = "Your own"
			noun = &job.Noun{Name: noun.Name, Fields: append([]job.Field{*own}, noun.Fields...)}
		}
	}
	x := Event{Stamp: last.Stamp, Who: authorName(role, last.Author), What: "Changed",
		Of: nameOf(names, entity), Entity: entity}
	named := noun.Name == "colour" || noun.Name == "member" || noun.Name == "kit" || noun.Name == "piece" ||
		noun.Name == "layer" || noun.Name == "added" || noun.Name == "photo" || noun.Name == "box"
	switch {
	case named && edits[0].ID == began:
		x.What = "Added"
		if !j.State.Removed(entity) {
			x.Back = []job.Change{job.Put(entity, "removed", true)}
		}
	case last.field == "removed" && string(last.Value) == "true":
		x.What = "Removed"
	case last.field == "removed":
		x.What = "Brought back"
	case noun.Name == "choice":
		x.What, x.Of, x.Detail = "Decided", "a colour that lacks a size", plainValue(last.Value)
		if strings.HasPrefix(entity, "choice/"+packing.BagsOf) {
			x.Of = "what bags hold"
		}
		for _, n := range p.Notes {
			if n.AskedAs(strings.TrimPrefix(entity, "choice/")) {
				n.Picked = strings.Trim(string(last.Value), `"`)
				x.Of, x.Detail = firstSentence(n.Text), n.PickedLabel()
			}
		}
	case last.field == "order" && len(edits) == 1:
		x.What = "Moved"
	default:
		x.Detail = changedWords(noun, edits, names, measure.System(j.Brief.Units))
	}
	if x.What != "Added" {
		x.Back = setBack(edits)
	}
	x.Back = slices.DeleteFunc(x.Back, func(c job.Change) bool {
		return !role.MayField(job.Set, c.Entity, c.Field) || job.CheckChange(c) != nil
	})
	if len(x.Back) > 0 {
		x.Undo = &Action{Act: "revert", Entity: entity, Op: x.Stamp.ID}
	}
	return x
}

// setBack returns the changes that undo the edits, for each field that nobody changed since.
func setBack(edits []edit) []job.Change {
	var changes []job.Change
	for _, e := range edits {
		if e.stands {
			changes = append(changes, job.Put(e.entity, e.field, e.before))
		}
	}
	return changes
}

func firstSentence(text string) string {
	first, _, _ := strings.Cut(text, ". ")
	return strings.TrimSuffix(first, ".")
}

// changedWords lists what fields became, each with its label; the place in the list is left out.
func changedWords(noun *job.Noun, edits []edit, names map[string]string, units measure.System) string {
	var words []string
	for _, e := range edits {
		f, known := noun.Field(e.field)
		if !known || e.field == "order" || e.field == "removed" {
			continue
		}
		words = append(words, f.Label+": "+valueWords(f, e.Value, names, units))
	}
	return strings.Join(words, "; ")
}

// valueWords writes a value of a field for a line of history, as a person would, cut to a line's length but for notes.
func valueWords(f *job.Field, value json.RawMessage, names map[string]string, units measure.System) string {
	if string(value) == "null" && f.Default != "" {
		value = json.RawMessage(f.Default)
	}
	var parts []string
	switch f.Kind {
	case job.OneOf:
		for _, c := range f.Choices {
			if strconv.Quote(c.Value) == string(value) {
				parts = append(parts, strings.ToLower(c.Label))
			}
		}
	case job.Flag:
		if string(value) == "true" {
			return "yes"
		}
		return "no"
	case job.SizeList:
		return strings.NewReplacer("[", "", "]", "", ",", ", ").Replace(string(value)) + " in"
	case job.Shares:
		var shares []job.Share
		_ = json.Unmarshal(value, &shares) // a value that is not a list says nothing
		for _, s := range shares {
			parts = append(parts, figure(s.Weight, 2)+" "+nameOf(names, "colour/"+s.Colour))
		}
	case job.TypedCounts:
		var counts []job.TypedCount
		_ = json.Unmarshal(value, &counts) // as above
		for _, c := range counts {
			parts = append(parts, strconv.Itoa(c.Count)+" "+nameOf(names, "colour/"+c.Colour)+" "+inches(c.SizeIn))
		}
	case job.Spans:
		for _, s := range job.ReadSpans(value) {
			parts = append(parts, SpanWords(s))
		}
	case job.Reference:
		if id := form.Text(f, value, units); id != "" {
			parts = append(parts, nameOf(names, f.Refers+"/"+id))
		}
	case job.PointInTime:
		parts = append(parts, DayClock(job.Moment(form.Text(f, value, units))))
	case job.Day:
		parts = append(parts, Day(form.Text(f, value, units)))
	default:
		parts = append(parts, form.Text(f, value, units))
	}
	text := orElse(strings.Join(parts, ", "), "empty")
	if f.Kind == job.LongText {
		return text
	}
	return cutLine(text)
}

// cutLine cuts a text to a line's length.
func cutLine(text string) string {
	if runes := []rune(text); len(runes) > 80 {
		return string(runes[:79]) + "…"
	}
	return text
}

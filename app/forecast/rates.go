package forecast

import (
	"encoding/json"
	"strings"

	"garlandry/app/plan"
	"garlandry/app/plan/figures"

	"garlandry/app/job"
	"garlandry/calc/crew"
	"garlandry/calc/measure"
)

// Comparison compares how long a kind of work took, for one skill, with the table.
type Comparison struct {
	Kind, Label     string
	Practised       bool
	Planned, Actual float64 // person-minutes
	Times           int     // cards it was seen on
	Factor          float64 // of the table's minutes: between the table and the actual times
	Strays          float64 // factor of the table's spread, likewise; 1 if there are too few cards
	Used            bool    // one's own rates already follow it
	// Beyond says that the times are further from the table than a rate goes by itself. Somebody has to say so.
	Beyond bool
}

// Key names the kind of work and the skill: "fill/beginner".
func (t *Comparison) Key() string { return t.Kind + "/" + string(t.hands()) }

// Compare compares planned with actual times by kind of work and skill, as far as ticks and counts show them.
func (f *Forecast) Compare(j *job.Job, p *plan.Plan) []Comparison {
	var seen []crew.Seen
	for i := range f.progress {
		if t := &f.whole[i]; t.Kind != "" {
			seen = append(seen, t.Seen(&f.progress[i])...)
		}
	}
	rows := crew.Compare(kindRates(p), seen)
	list := make([]Comparison, len(rows))
	for i := range rows {
		r := &rows[i]
		list[i] = Comparison{Kind: r.Kind, Label: labelOfKind(r.Kind), Practised: r.Practised, Planned: r.Planned,
			Actual: r.Actual, Times: r.Times, Factor: r.Rate.Factor, Strays: 1}
		if r.Times >= leastTimes {
			list[i].Strays = r.Strays
		}
		t, ratio := &list[i], r.Actual/r.Planned
		for k := range p.Figures {
			figure := &p.Figures[k]
			if t.about(figure.Key) {
				t.Used = t.Used || strings.HasPrefix(j.Overrides[figure.Key].Note, UsedNote(j))
			}
			if low, high := limits(figure); t.Covers(figure.Key) && ratio != 1 {
				value := float64(figure.Value * ratio)
				t.Beyond = t.Beyond || value < low || value > high
			}
		}
	}
	return list
}

// leastTimes is the least number of cards to learn the spread from. From memory, no source.
const leastTimes = 5

func labelOfKind(name string) string {
	for _, kind := range figures.WorkKinds() {
		if kind.Name == name {
			return kind.Label
		}
	}
	return name
}

func (t *Comparison) hands() figures.Skill {
	if t.Practised {
		return figures.Practised
	}
	return figures.Beginner
}

// about reports whether a figure is one that the comparison may change.
func (t *Comparison) about(key string) bool { return t.Covers(key) || key == t.strayKey() }

func (t *Comparison) strayKey() string {
	k := figures.KindOfWork{Name: t.Kind}
	return k.StrayKey(t.hands())
}

// Covers reports whether a row of the time table is about this work in these hands.
func (t *Comparison) Covers(key string) bool {
	rest, minutes := strings.CutPrefix(key, "minutes/")
	hands := t.hands()
	if !minutes || !strings.HasSuffix(rest, "/"+string(hands)) {
		return false
	}
	for _, kind := range figures.WorkKinds() {
		for _, row := range kind.Rows {
			if kind.Name == t.Kind && strings.HasPrefix(rest, row) {
				return true
			}
		}
	}
	return false
}

// UsedNote begins the notes of rates adopted from a job, so that the same job does not count twice.
func UsedNote(j *job.Job) string { return figures.SeenAt + j.Brief.Title + " " + j.Brief.Date }

// sameRate is how near to 1 a factor changes nothing.
const sameRate = 0.03

// limits returns how far learning may move a figure. A value that was typed beyond that may stay.
func limits(f *figures.Figure) (low, high float64) {
	low, high = f.LearntRange()
	return min(low, f.Value), max(high, f.Value)
}

// NewRate is what adopting a comparison does to one of the own figures.
type NewRate struct {
	Figure *figures.Figure // with its value before
	After  float64
}

// Rates returns what adopting the comparison changes. The minutes follow its factor. Times that are [Comparison.Beyond]
// take the minutes to the limit, and leave the figure for how far times stray as it is.
func (t *Comparison) Rates(list []figures.Figure) (rates []NewRate) {
	for i := range list {
		f := &list[i]
		low, high := limits(f)
		value := f.Value
		switch {
		case t.Covers(f.Key) && t.Beyond:
			value = float64(f.Value*t.Actual) / t.Planned
		case t.Covers(f.Key):
			value = float64(f.Value * t.Factor)
		case f.Key == t.strayKey() && !t.Beyond:
			value = float64(f.Value * t.Strays)
		}
		value = min(max(float64(int(float64(value*100)+0.5))/100, low), high)
		if value < float64(f.Value*(1-sameRate)) || value > float64(f.Value*(1+sameRate)) {
			rates = append(rates, NewRate{f, value})
		}
	}
	return rates
}

// Chosen returns the comparison with a key. For "all" it returns those that need no answer of their own.
func Chosen(list []Comparison, key string) (chosen []Comparison) {
	for i := range list {
		if list[i].Key() == key || key == "all" && !list[i].Beyond {
			chosen = append(chosen, list[i])
		}
	}
	return chosen
}

// AdoptRates returns changes that apply the comparisons to every row of the time table that the plan uses, and to how
// far times stray: a value and its note each.
func AdoptRates(j *job.Job, p *plan.Plan, list []Comparison) (changes []job.Change) {
	for i := range list {
		t := &list[i]
		if t.Used {
			continue
		}
		note := UsedNote(j) + ": " + measure.FormatMinutes(t.Actual) + " instead of " + measure.FormatMinutes(t.Planned)
		if len(note) > job.MostNote {
			note = UsedNote(j)
		}
		for _, rate := range t.Rates(p.Figures) {
			entity := "override/" + rate.Figure.Key
			changes = append(changes, job.Put(entity, "value", rate.After), job.Put(entity, "note", note))
		}
	}
	return changes
}

// DropRates returns changes that put back what was there before rates were adopted, here or from another job. Key names
// a comparison, and note begins the notes that adopting wrote. What somebody changed since stays.
func DropRates(j *job.Job, key, note string) (changes []job.Change) {
	kind, hands, _ := strings.Cut(key, "/")
	t := &Comparison{Kind: kind, Practised: hands == string(figures.Practised)}
	for _, entity := range j.State.Entities("override") {
		figure := strings.TrimPrefix(entity, "override/")
		value, why := j.State.Register(entity, "value"), j.State.Register(entity, "note")
		if !t.about(figure) || !strings.HasPrefix(j.Overrides[figure].Note, note) || len(value.Readings) == 0 ||
			len(why.Readings) == 0 || !rightAfter(&why.Readings[0], &value.Readings[0]) {
			continue
		}
		changes = append(changes, job.Put(entity, "value", valueBefore(value)),
			job.Put(entity, "note", valueBefore(why)))
	}
	return changes
}

// rightAfter reports whether one reading was made right after another, as adopting does.
func rightAfter(x, before *job.Reading) bool {
	return x.Device == before.Device && x.Number == before.Number+1
}

// valueBefore returns the value that a register had before its current one; nil if none.
func valueBefore(r job.Register) json.RawMessage {
	if len(r.Readings) < 2 {
		return nil
	}
	return r.Readings[1].Value
}

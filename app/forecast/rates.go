package forecast

import (
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
}

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
		own := false
		for _, figure := range p.Figures {
			if list[i].Covers(figure.Key) || figure.Key == list[i].strayKey() {
				own = own || strings.HasPrefix(j.Overrides[figure.Key].Note, usedNote(j))
			}
		}
		list[i].Used = own
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

// times returns the factor for the value of a figure.
func (t *Comparison) times(key string) float64 {
	switch {
	case t.Covers(key):
		return t.Factor
	case key == t.strayKey():
		return t.Strays
	}
	return 1
}

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

// usedNote begins the notes of rates adopted from a job, so that the same job does not count twice.
func usedNote(j *job.Job) string { return "Seen at " + j.Brief.Title + " " + j.Brief.Date }

// sameRate is how near to 1 a factor changes nothing.
const sameRate = 0.03

// AdoptRates returns changes that apply the factors to every row of the time table that the plan uses, and to how far
// times stray.
func AdoptRates(j *job.Job, p *plan.Plan, list []Comparison) []job.Change {
	var changes []job.Change
	for i := range list {
		t := &list[i]
		if t.Used {
			continue
		}
		for k := range p.Figures {
			f := &p.Figures[k]
			times := t.times(f.Key)
			if times > 1-sameRate && times < 1+sameRate {
				continue
			}
			value := float64(int(float64(f.Value*times*100)+0.5)) / 100
			note := usedNote(j) + ": " + measure.FormatMinutes(t.Actual) + " instead of " + measure.FormatMinutes(t.Planned)
			if len(note) > mostNote {
				note = usedNote(j)
			}
			changes = append(changes, job.Put("override/"+f.Key, "value", min(max(value, f.Min), f.Max)),
				job.Put("override/"+f.Key, "note", note))
		}
	}
	return changes
}

// mostNote is the most that a note holds, in bytes.
const mostNote = 200

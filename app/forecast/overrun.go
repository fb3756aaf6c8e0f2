package forecast

import (
	"slices"

	"garlandry/app/plan/phrase"
	"garlandry/app/plan/task"
	"garlandry/calc/crew"
	"garlandry/calc/measure"
)

// Overrun is a person, by index in People, who works past their own time, the end of an evening, or the doors.
type Overrun struct {
	Person, Until, Minutes int
	Past                   string // "their time", "the evening", "the doors"
}

// overruns finds the worst overrun of each person.
func (f *Forecast) overruns() {
	f.Over = nil
	for person := range f.People {
		worst := Overrun{Person: person}
		for i := range f.Tasks {
			t := &f.Tasks[i]
			for _, s := range t.Spells {
				if s.Person != person {
					continue
				}
				worst.reach(s.To, endOf(f.job.People[person].Free, s.From), "their time")
				if t.Place != task.TakeDown {
					worst.reach(s.To, f.Doors, "the doors")
				}
				for _, e := range f.Evenings {
					if e.From <= s.From && s.From < e.To+mostLinger {
						worst.reach(s.To, e.To, "the evening")
					}
				}
			}
		}
		if worst.Minutes > 0 {
			f.Over = append(f.Over, worst)
		}
	}
}

// Overruns says who works too long. People with the same overrun share a sentence.
func (f *Forecast) Overruns() (says []string) {
	for i := range f.Over {
		o, names, first := &f.Over[i], []string(nil), i
		for k := range f.Over {
			if also := &f.Over[k]; also.Until == o.Until && also.Minutes == o.Minutes && also.Past == o.Past {
				names, first = append(names, f.People[also.Person].Name), min(first, k)
			}
		}
		if first == i {
			says = append(says, phrase.And(names)+" at work until "+f.clock(o.Until)+", "+
				measure.FormatMinutes(float64(o.Minutes))+" past "+o.Past+".")
		}
	}
	return says
}

// Cautions says who works too long and which balloons sink early. It leaves out work past the doors where the sentence
// says that all is late.
func (f *Forecast) Cautions() []string {
	if f == nil {
		return nil
	}
	some := *f
	if f.Verdict == "late" || f.Verdict == "past" {
		some.Over = slices.DeleteFunc(slices.Clone(f.Over), func(o Overrun) bool { return o.Past == "the doors" })
	}
	return append(some.Overruns(), f.Sinks()...)
}

func (o *Overrun) reach(to, end int, past string) {
	if to-end > o.Minutes {
		o.Until, o.Minutes, o.Past = to, to-end, past
	}
}

// endOf returns the end of the last of the sorted times that has begun at a minute; far away if there is none.
func endOf(times []crew.Interval, at int) int {
	end := faraway
	for _, t := range times {
		if t.From <= at {
			end = t.To
		}
	}
	return end
}

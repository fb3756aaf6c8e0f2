package task

import (
	"strings"

	"garlandry/app/plan/figures"
	"garlandry/app/plan/phrase"
	"garlandry/calc/measure"
)

// effort is person-minutes with their calculation: for this crew, for beginners only, for practised people only.
type effort struct {
	crew, beginner, practised float64
	lines                     []figures.Line
}

func (e effort) plus(o effort) effort {
	return effort{e.crew + o.crew, e.beginner + o.beginner, e.practised + o.practised, append(e.lines, o.lines...)}
}

func (e effort) by() map[string]float64 {
	return map[string]float64{string(figures.Beginner): e.beginner, string(figures.Practised): e.practised}
}

// effort returns the time for a row of the time table, times over.
func (d *draft) effort(place Place, key string, times float64) effort {
	return d.work(place, key, times, 1)
}

// together returns the time for work that several people do at once. The minutes of each count.
func (d *draft) together(place Place, key string, times float64) effort {
	return d.work(place, key, times, d.Figures.Get("hands/lift"))
}

// work returns the time for a row of the time table, times over, by several hands at once. The crew's own figure is the
// harmonic mean over its members, because fast hands do more of the shared work.
func (d *draft) work(place Place, key string, times, hands float64) effort {
	slow := d.Figures.Row("minutes/" + key + "/" + string(figures.Beginner))
	fast := d.Figures.Row("minutes/" + key + "/" + string(figures.Practised))
	crew := d.Site
	if place == Home || place == Load {
		crew = d.Home
	}
	one := figures.MeanMinutes(crew, slow.Value, fast.Value)
	many := float64(times * hands)
	e := effort{float64(one * many), float64(slow.Value * many), float64(fast.Value * many), nil}
	how := phrase.Number(times) + " x " + minutesEach(one) + " min"
	if hands != 1 {
		how += " x " + phrase.Number(hands) + " hands"
	}
	source := slow.Source
	if fast.Overridden {
		source = fast.Source
	}
	e.lines = []figures.Line{{What: strings.TrimSuffix(slow.Label, ", "+string(figures.Beginner)), How: how,
		Result: measure.FormatMinutes(e.crew), Source: source}}
	return e
}

// sameFor returns minutes that do not depend on who does the work.
func sameFor(minutes float64) map[string]float64 {
	return map[string]float64{string(figures.Beginner): minutes, string(figures.Practised): minutes}
}

// minutesEach writes minutes as a person says them: whole from ten on.
func minutesEach(minutes float64) string {
	if minutes >= 10 {
		return measure.FormatNumber(minutes, 0)
	}
	return phrase.Number(minutes)
}

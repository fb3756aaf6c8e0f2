package plan

import (
	"strings"

	"garlandry/calc/measure"
)

// effort is person-minutes: of this crew, and if everyone were a beginner or practised; with how they came about.
type effort struct {
	crew, beginner, practised float64
	lines                     []Line
}

func (e effort) plus(o effort) effort {
	return effort{e.crew + o.crew, e.beginner + o.beginner, e.practised + o.practised, append(e.lines, o.lines...)}
}

func (e effort) by() map[string]float64 {
	return map[string]float64{string(beginner): e.beginner, string(practised): e.practised}
}

// effort is the time for so many of a row of the time table.
func (d *cardDraft) effort(place Place, key string, times float64) effort {
	return d.work(place, key, times, 1)
}

// together is the time for work that keeps several hands busy at once: every one of them counts.
func (d *cardDraft) together(place Place, key string, times float64) effort {
	return d.work(place, key, times, d.figures.get("hands/lift"))
}

// work is the time for so many of a row of the time table, by so many hands at once. The crew's own figure is the
// harmonic mean over its hands: what each of them needs when they share the work out by how fast they are.
func (d *cardDraft) work(place Place, key string, times, hands float64) effort {
	slow := d.figures.row("minutes/" + key + "/" + string(beginner))
	fast := d.figures.row("minutes/" + key + "/" + string(practised))
	crew := d.site
	if place == Home || place == Load {
		crew = d.home
	}
	one := meanMinutes(crew, slow.Value, fast.Value)
	many := float64(times * hands)
	e := effort{float64(one * many), float64(slow.Value * many), float64(fast.Value * many), nil}
	how := number(times) + " x " + number(one) + " min"
	if hands != 1 {
		how += " x " + number(hands) + " hands"
	}
	source := slow.Source
	if fast.Overridden {
		source = fast.Source
	}
	e.lines = []Line{{strings.TrimSuffix(slow.Label, ", "+string(beginner)), how, measure.FormatMinutes(e.crew), source}}
	return e
}

func meanMinutes(crew []skill, slow, fast float64) float64 {
	rate := 0.0
	for _, s := range crew {
		minutes := slow
		if s == practised {
			minutes = fast
		}
		if !(minutes > 0) {
			return 0
		}
		rate += 1 / minutes
	}
	return float64(len(crew)) / rate
}

// sameFor is minutes that do not depend on who does the work.
func sameFor(minutes float64) map[string]float64 {
	return map[string]float64{string(beginner): minutes, string(practised): minutes}
}

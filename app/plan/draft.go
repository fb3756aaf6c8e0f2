package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// draft is a plan in the making: the job, the figures it is made with, and what has been worked out so far. Rules read
// what earlier steps left in it and add their own.
type draft struct {
	job     job.Job
	units   measure.System
	figures *figures
	push    cluster.Push
	pitches map[string]float64 // mm, by recipe
	home    []skill            // who fills and ties beforehand, never empty
	site    []skill            // who builds on site, never empty
	pieces  []*counted
	hauled  *haul     // once worked out
	frames  []job.Kit // as hauled: see [draft.framesUsed]
	hanging []thing   // as hauled: see [draft.things]
	plan    Plan
}

func newDraft(j job.Job) *draft {
	if j.State == nil {
		j.State = job.NewState()
	}
	d := &draft{job: j, figures: newFigures(j.Overrides), pitches: map[string]float64{}, units: measure.Metric}
	if j.Brief.Units == string(measure.Imperial) {
		d.units = measure.Imperial
	}
	d.home, d.site = crewSkills(j.Crew)
	d.push = cluster.StandardPush()
	if relative := d.figures.get("base/push"); relative != d.push.Relative {
		d.push = cluster.Push{Relative: relative, Source: cluster.SourceMeasured}
	}
	return d
}

// pitchMM is the distance between clusters of the recipe, worked out once.
func (d *draft) pitchMM(r cluster.Recipe) float64 {
	key := r.String()
	if pitch, known := d.pitches[key]; known {
		return pitch
	}
	pitch := cluster.PitchMM(r, d.push)
	d.pitches[key] = pitch
	return pitch
}

func (d *draft) length(mm float64) string { return measure.FormatLength(mm, d.units) }
func (d *draft) small(inches float64) string {
	return measure.FormatSmallLength(float64(inches*measure.MMPerInch), d.units)
}

func (d *draft) smallMM(mm float64) string { return measure.FormatSmallLength(mm, d.units) }

// outdoors reports whether wind, sun or rain can reach the work.
func (d *draft) outdoors() bool {
	return d.job.Brief.Place == "outdoors" || d.job.Brief.Place == "covered"
}

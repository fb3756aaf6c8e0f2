package plan

import (
	"garlandry/app/job"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// Draft is a job with its pieces counted: what they take, and the figures they were counted with. Packages above read it
// and add nothing to it but notes.
type Draft struct {
	job      job.Job
	units    measure.System
	figures  *figures
	push     cluster.Push
	pitches  map[string]float64 // mm, by recipe
	home     []skill            // who fills and ties beforehand, never empty
	site     []skill            // who builds on site, never empty
	pieces   []*counted
	Balloons []BalloonLine // what to buy, by size, then colour in palette order
	Ties     int           // 260s used as ties, without spares
	Notes    []Note        // what was decided while counting
}

// newDraft counts the pieces of a job.
func newDraft(j job.Job) *Draft {
	if j.State == nil {
		j.State = job.NewState()
	}
	d := &Draft{job: j, figures: newFigures(j.Overrides), pitches: map[string]float64{}, units: measure.Metric}
	if j.Brief.Units == string(measure.Imperial) {
		d.units = measure.Imperial
	}
	d.home, d.site = crewSkills(j.Crew)
	d.push = cluster.StandardPush()
	if relative := d.figures.get("base/push"); relative != d.push.Relative {
		d.push = cluster.Push{Relative: relative, Source: cluster.SourceMeasured}
	}
	for _, p := range j.Pieces {
		d.pieces = append(d.pieces, d.count(p))
	}
	d.gather()
	return d
}

// pitchMM is the distance between clusters of the recipe, worked out once.
func (d *Draft) pitchMM(r cluster.Recipe) float64 {
	key := r.String()
	if pitch, known := d.pitches[key]; known {
		return pitch
	}
	pitch := cluster.PitchMM(r, d.push)
	d.pitches[key] = pitch
	return pitch
}

func (d *Draft) length(mm float64) string { return measure.FormatLength(mm, d.units) }
func (d *Draft) small(inches float64) string {
	return measure.FormatSmallLength(float64(inches*measure.MMPerInch), d.units)
}

func (d *Draft) smallMM(mm float64) string { return measure.FormatSmallLength(mm, d.units) }

// outdoors reports whether wind, sun or rain can reach the work.
func (d *Draft) outdoors() bool {
	return d.job.Brief.Place == "outdoors" || d.job.Brief.Place == "covered"
}

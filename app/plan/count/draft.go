// Package count turns the pieces of a job into clusters and balloons by size and colour, and those into what to buy.
// Start at [New].
package count

import (
	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/calc/cluster"
	"garlandry/calc/measure"
)

// Draft is a job with its pieces counted and the figures used for that. Packages above read it and add only notes.
type Draft struct {
	kinds    []*Kind
	Job      job.Job
	Units    measure.System
	Figures  *figures.Table
	Push     cluster.Push
	pitches  map[string]float64 // mm, by recipe
	Home     []figures.Skill    // who fills and ties beforehand, never empty
	Site     []figures.Skill    // who works on site, never empty
	Pieces   []*Counted
	Balloons []BalloonLine // what to buy, by size, then colour in palette order
	Ties     int           // 260s used as ties, without spares
	Notes    []Note
}

// New counts the pieces of a job. It knows the given kinds, usually [Kinds].
func New(j job.Job, kinds []*Kind) *Draft {
	if j.State == nil {
		j.State = job.NewState()
	}
	d := &Draft{kinds: kinds, Job: j, Figures: figures.New(j.Overrides), pitches: map[string]float64{},
		Units: measure.Metric}
	if j.Brief.Units == string(measure.Imperial) {
		d.Units = measure.Imperial
	}
	d.Home, d.Site = crewSkills(j.Crew)
	d.Push = cluster.StandardPush()
	if relative := d.Figures.Get("base/push"); relative != d.Push.Relative {
		d.Push = cluster.Push{Relative: relative, Source: cluster.SourceMeasured}
	}
	for _, p := range j.Pieces {
		d.Pieces = append(d.Pieces, d.count(p))
	}
	d.gather()
	return d
}

// Kinds returns the kinds of piece that the draft knows.
func (d *Draft) Kinds() []*Kind { return d.kinds }

// pitchMM returns the distance between clusters of the recipe. It computes each recipe once.
func (d *Draft) pitchMM(r cluster.Recipe) float64 {
	key := r.String()
	if pitch, known := d.pitches[key]; known {
		return pitch
	}
	pitch := cluster.PitchMM(r, d.Push)
	d.pitches[key] = pitch
	return pitch
}

// Length writes a length in the job's units.
func (d *Draft) Length(mm float64) string { return measure.FormatLength(mm, d.Units) }

// Small writes the size of a balloon, given in inches, in the job's units.
func (d *Draft) Small(inches float64) string {
	return measure.FormatSmallLength(float64(inches*measure.MMPerInch), d.Units)
}

// SmallMM writes a small length in the job's units.
func (d *Draft) SmallMM(mm float64) string { return measure.FormatSmallLength(mm, d.Units) }

// Outdoors reports whether wind, sun or rain can reach the work.
func (d *Draft) Outdoors() bool {
	return d.Job.Brief.Place == "outdoors" || d.Job.Brief.Place == "covered"
}

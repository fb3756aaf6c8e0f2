package form

import (
	"strconv"

	"garlandry/app/job"
)

// Try gives the job as it would be after the changes, for checks across fields and for showing what a form would do
// before it is saved. Nothing is written; the job handed in stays as it is.
func Try(j job.Job, changes []job.Change) job.Job {
	shared, private := job.NewState(), job.NewState()
	if j.State != nil {
		shared = j.State.Clone()
	}
	if j.Private != nil {
		private = j.Private.Clone()
	}
	for i, c := range changes {
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		rec := job.PendingRec(job.Op{ID: "try-" + strconv.Itoa(i), Device: "try", Number: triedNumber + uint64(i), Version: job.Version,
			Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta}, job.Author{})
		if job.Private(c.Entity) {
			private.Apply(rec)
		} else {
			shared.Apply(rec)
		}
	}
	return job.Read(j.ID, shared, private)
}

// triedNumber lies above the numbers of any device's own unsent operations, so that what is tried counts last.
const triedNumber = 1 << 50

// Together puts at their inputs the errors that only show across fields. Errors of fields that the form does not have
// become its alert.
func (s State) Together(faults []*job.FieldError, fields []string) State {
	for _, fault := range faults {
		here := false
		for _, name := range fields {
			here = here || name == fault.Path
		}
		if here {
			s.Fail(fault.Path, sentence(fault.Message))
		} else if s.Alert == "" {
			s.Alert = sentence(fault.Message)
		}
	}
	return s
}

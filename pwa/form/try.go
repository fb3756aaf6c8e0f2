package form

import "garlandry/app/job"

// Try gives the job as it would be after the changes, see [job.Try].
func Try(j job.Job, changes []job.Change) job.Job { return job.Try(j, changes) }

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

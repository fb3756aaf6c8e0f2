package form

import (
	"slices"

	"garlandry/app/job"
)

// Together adds errors that depend on several fields, each at its input. Errors of fields that the form does not have
// become its alert.
func (s State) Together(faults []*job.FieldError, fields []string) State {
	for _, fault := range faults {
		if slices.Contains(fields, fault.Path) {
			s.Fail(fault.Path, sentence(fault.Message))
		} else if s.Alert == "" {
			s.Alert = sentence(fault.Message)
		}
	}
	return s
}

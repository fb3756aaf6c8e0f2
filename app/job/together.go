package job

// CheckTogether lists contradictions in a brief whose fields are each valid: at most one error a field.
func (b Brief) CheckTogether() []*FieldError {
	var faults []*FieldError
	if minutes, known := b.In.MinutesUntil(b.Doors); known && minutes <= 0 {
		faults = append(faults, &FieldError{"doors", "the doors must open after your access begins"})
	} else if known && minutes > 14*24*60 {
		faults = append(faults, &FieldError{"doors", "the doors must open within 14 days of the start of your access"})
	}
	if minutes, known := b.Doors.MinutesUntil(b.Down); known && minutes <= 0 {
		faults = append(faults, &FieldError{"down", "take-down must come after the doors open"})
	}
	return faults
}

// CheckTogether reports a member whose time ends before it begins.
func (m Member) CheckTogether() []*FieldError {
	if minutes, known := m.From.MinutesUntil(m.To); known && minutes <= 0 {
		return []*FieldError{{"to", "must be after their start"}}
	}
	return nil
}

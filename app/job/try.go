package job

import "strconv"

// triedNumber lies above the numbers of any device's own unsent operations, so that what is tried counts last.
const triedNumber = 1 << 50

// Try gives the job as it would be after the changes: for checks across fields, and to show what a form or a fix would
// do before it is saved. Nothing is written; the job handed in stays as it is.
func Try(j Job, changes []Change) Job {
	shared, private := NewState(), NewState()
	if j.State != nil {
		shared = j.State.Clone()
	}
	if j.Private != nil {
		private = j.Private.Clone()
	}
	for i, c := range changes {
		kind := c.Kind
		if kind == "" {
			kind = Set
		}
		rec := PendingRec(Op{ID: "try-" + strconv.Itoa(i), Device: "try", Number: triedNumber + uint64(i), Version: Version,
			Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta}, Author{})
		if Private(c.Entity) {
			private.Apply(rec)
		} else {
			shared.Apply(rec)
		}
	}
	return Read(j.ID, shared, private)
}

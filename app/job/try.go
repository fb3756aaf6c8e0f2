package job

import "strconv"

// triedNumber is above all numbers of unsent operations: tried changes count last.
const triedNumber = 1 << 50

// Try returns the job as it would be after the changes: for checks across fields, and to preview a form or a fix. It
// writes nothing and leaves j unchanged.
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

package job_test

import (
	"fmt"

	"garlandry/app/job"
)

// A job is the fold of a set of operations, which may arrive in any order and repeatedly.
func ExampleFold() {
	record := func(number uint64, c job.Change) job.Rec {
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		op := job.Op{ID: fmt.Sprintf("operation%d", number), Device: "phone", Number: number, Version: job.Version,
			Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta}
		return job.Rec{Op: op, Effective: int64(number)}
	}
	title := record(1, job.Put("brief", "title", "Reading room reopening"))
	twelve := record(2, job.Count("card/make/door", 12))
	three := record(3, job.Count("card/make/door", 3))
	wrong := record(4, job.TakeBack("card/make/door", "operation3"))

	j := job.Read("readingroom", job.Fold(wrong, three, title, twelve, three), nil)
	fmt.Println(j.Brief.Title, j.Made("card/make/door"))
	// Output: Reading room reopening 12
}

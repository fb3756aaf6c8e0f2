package main

import (
	"fmt"
	"time"

	"garlandry/app/seclog"
)

// noteSecurity writes to the security log of a data directory what the command line did. A log that cannot be written
// is said, and stops nothing.
func noteSecurity(s streams, dir string, e seclog.Event) {
	e.At, e.By = time.Now().UnixMilli(), "command line"
	if err := seclog.Append(dir, e); err != nil {
		fmt.Fprintln(s.err, "Note:", err)
	}
}

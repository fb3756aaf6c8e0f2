package main

import (
	"fmt"
	"time"

	"garlandry/app/seclog"
)

// noteSecurity adds what the command line did to the security log of a data directory. If that fails, it only prints a
// note.
func noteSecurity(s stdio, dir string, e seclog.Event) {
	e.At, e.By = time.Now().UnixMilli(), "command line"
	if err := seclog.Append(dir, e); err != nil {
		fmt.Fprintln(s.err, "Note:", err)
	}
}

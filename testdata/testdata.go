// Package testdata hands out the demo job that the server can begin with. The other files beside it are read by tests.
package testdata

import _ "embed"

// DemoJob is the job file of the demo.
//
//go:embed jobs/reading-room.json
var DemoJob []byte

// Package long leaves tests that take long out of a plain `go test ./...`.
package long

import (
	"os"
	"testing"
)

// Test skips a test that takes long, unless GARLANDRY_LONG is set, as .ci/run does. With -short it skips it all the
// same: the race detector and wasm take ten times as long. Why says what the test would check.
func Test(t testing.TB, why string) {
	t.Helper()
	if os.Getenv("GARLANDRY_LONG") == "" || testing.Short() {
		t.Skipf("takes long: %s; run: GARLANDRY_LONG=1 go test -run '^%s$'", why, t.Name())
	}
}

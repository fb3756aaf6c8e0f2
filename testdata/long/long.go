// Package long leaves tests that take long out of a plain `go test ./...`.
package long

import (
	"os"
	"testing"
)

// Wanted reports whether GARLANDRY_LONG is set, as .ci/run does, so that a test does all of its work and not a part of
// it. With -short it is false all the same: the race detector and wasm take ten times as long.
func Wanted() bool { return os.Getenv("GARLANDRY_LONG") != "" && !testing.Short() }

// Test skips a test that takes long, unless it is [Wanted]. Why says what the test would check.
func Test(t testing.TB, why string) {
	t.Helper()
	if !Wanted() {
		t.Skipf("takes long: %s; run: GARLANDRY_LONG=1 go test -run '^%s$'", why, t.Name())
	}
}

package slim_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"garlandry/pwa/shell/slim"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// program builds the example program for the browser's target.
func program(t testing.TB) []byte {
	t.Helper()
	if runtime.GOOS == "js" {
		t.Skip("a compiler is needed, and there is none in the browser's target; run it natively: go test ./pwa/shell/slim")
	}
	out := filepath.Join(t.TempDir(), "program.wasm")
	build := exec.Command("go", "build", "-ldflags=-s -w", "-o", out, "./testdata/program")
	build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	text, err := build.CombinedOutput()
	require.NoError(t, err, string(text))
	whole, err := os.ReadFile(out)
	require.NoError(t, err)
	return whole
}

// run runs a program in Node with the compiler's own loader and returns what it printed.
func run(t *testing.T, core []byte) string {
	t.Helper()
	root, err := exec.Command("go", "env", "GOROOT").Output()
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "core.wasm")
	require.NoError(t, os.WriteFile(path, core, 0o600))
	node := exec.Command("node", filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec_node.js"), path)
	text, err := node.CombinedOutput()
	require.NoError(t, err, string(text))
	return string(text)
}

func TestSlimProgramDoesWhatTheWholeOneDoes(t *testing.T) {
	if _, err := exec.LookPath("node"); err != nil {
		if os.Getenv("GARLANDRY_EXTERNAL") != "" {
			t.Fatal("node is missing")
		}
		t.Skip("node is not installed; run it with: apt-get install nodejs && go test ./pwa/shell/slim")
	}
	whole := program(t)
	want := run(t, whole)
	core, report, err := slim.Core(whole, false)
	require.NoError(t, err)
	assert.Contains(t, want, "value method main.piece.Name called using nil *piece pointer")
	assert.Equal(t, want, run(t, core))
	assert.Greater(t, report.ClearedBytes, 10000)
	assert.Less(t, report.SegmentsAfter, 100)
	assert.Greater(t, report.SegmentsBefore, 1000)
	slimmer, more, err := slim.Core(whole, true)
	require.NoError(t, err)
	assert.Equal(t, want, run(t, slimmer))
	assert.Greater(t, more.ClearedBytes, report.ClearedBytes+30000)
}

func TestSlimmingTwiceChangesNothingMore(t *testing.T) {
	core, _, err := slim.Core(program(t), true)
	require.NoError(t, err)
	again, report, err := slim.Core(core, true)
	require.NoError(t, err)
	assert.Zero(t, report.ClearedBytes)
	assert.True(t, bytes.Equal(core, again))
}

func TestUnknownProgramsAreRefused(t *testing.T) {
	whole := program(t)
	other := bytes.ReplaceAll(whole, []byte{0xf1, 0xff, 0xff, 0xff}, []byte{0xe1, 0xff, 0xff, 0xff})
	_, _, err := slim.Core(other, true)
	require.ErrorIs(t, err, slim.ErrUnknownLayout)
	for name, damaged := range map[string][]byte{"empty": nil, "text": []byte("a job file, not a program"), "cut short": whole[:len(whole)/2]} {
		_, _, err := slim.Core(damaged, true)
		assert.Error(t, err, name)
	}
}

func FuzzDamagedProgramsNeverPanic(f *testing.F) {
	head := []byte{0, 'a', 's', 'm', 1, 0, 0, 0}
	f.Add(head)
	f.Add(append(head, 11, 7, 1, 0, 0x41, 0, 0x0b, 1, 9))
	f.Add(append(head, 11, 80, 1, 0, 0x41, 0, 0x0b, 74, 0xf1, 0xff, 0xff, 0xff, 0, 0, 1, 8, 1))
	f.Fuzz(func(t *testing.T, program []byte) {
		core, _, err := slim.Core(program, true)
		if err != nil {
			return
		}
		_, _, err = slim.Core(core, true)
		assert.NoError(t, err)
	})
}

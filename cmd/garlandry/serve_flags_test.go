package main

import (
	"bytes"
	"net"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestBadServeFlagsLeaveNoData checks that a bad flag is refused before anything is written.
func TestBadServeFlagsLeaveNoData(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer taken.Close()
	for name, flags := range map[string][]string{
		"proxy that is no address": {"--proxy", "not-an-address"},
		"proxy network too wide":   {"--proxy", "10.0.0.0/99"},
		"second proxy":             {"--proxy", "10.0.0.1", "--proxy", "::x"},
		"address without port":     {"--addr", "127.0.0.1"},
		"port out of range":        {"--addr", "127.0.0.1:99999"},
		"port taken":               {"--addr", taken.Addr().String()},
		"base URL with a query":    {"--base-url", "https://balloons.example/?a=b"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "data")
			var out, trouble bytes.Buffer
			code := run(append([]string{"serve", "--data", dir}, flags...), stdio{nil, &out, &trouble})
			assert.NotZero(t, code)
			assert.Contains(t, trouble.String(), flags[len(flags)-1], "the message names what was typed")
			_, err := os.Stat(dir)
			assert.ErrorIs(t, err, os.ErrNotExist)
		})
	}
}

package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestIconsAreWhatTheProgramDraws keeps the committed files and the program in step, byte for byte.
func TestIconsAreWhatTheProgramDraws(t *testing.T) {
	into := t.TempDir()
	require.NoError(t, run(into))
	drawn, err := os.ReadDir(into)
	require.NoError(t, err)
	require.Len(t, drawn, 5)
	for _, file := range drawn {
		want, err := os.ReadFile(filepath.Join(into, file.Name()))
		require.NoError(t, err)
		have, err := os.ReadFile(filepath.Join("..", "icons", file.Name()))
		require.NoError(t, err)
		assert.Equal(t, want, have, "%s: run go generate ./static", file.Name())
	}
}

// TestMaskableKeepsToTheSafeCircle checks that no balloon leaves the circle of 40 % that the W3C manifest
// specification keeps safe in a maskable icon.
func TestMaskableKeepsToTheSafeCircle(t *testing.T) {
	for _, b := range arch(0.70) {
		reach := (b.x-0.5)*(b.x-0.5) + (b.y-0.5)*(b.y-0.5)
		assert.LessOrEqual(t, reach, (0.4-b.r)*(0.4-b.r))
	}
}

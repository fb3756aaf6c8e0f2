package view_test

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// luminance returns the relative luminance of an sRGB colour, 0 to 1, as WCAG 2.2 defines it.
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	if len(hex) == 4 {
		hex = "#" + strings.Repeat(hex[1:2], 2) + strings.Repeat(hex[2:3], 2) + strings.Repeat(hex[3:4], 2)
	}
	require.Len(t, hex, 7, hex)
	part := func(from int) float64 {
		n, err := strconv.ParseUint(hex[from:from+2], 16, 8)
		require.NoError(t, err, hex)
		c := float64(n) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(1) + 0.7152*part(3) + 0.0722*part(5)
}

func contrast(t *testing.T, a, b string) float64 {
	x, y := luminance(t, a), luminance(t, b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestContrastFormula checks the formula against pairs whose ratio is well known: black on white is 21:1 by definition
// in WCAG 2.2; #767676 on white is the usual example of the darkest grey that just passes 4.5:1 (from memory).
func TestContrastFormula(t *testing.T) {
	assert.InDelta(t, 21, contrast(t, "#000000", "#ffffff"), 1e-9)
	assert.InDelta(t, 1, contrast(t, "#123456", "#123456"), 1e-9)
	assert.GreaterOrEqual(t, contrast(t, "#767676", "#ffffff"), 4.5)
	assert.Less(t, contrast(t, "#777777", "#ffffff"), 4.5)
}

const styleSheet = "../../static/css/app.css"

// tokens reads the custom properties of the first rule with the selector.
func tokens(t *testing.T, css, selector string) map[string]string {
	t.Helper()
	_, rest, found := strings.Cut(css, selector+"{")
	require.True(t, found, selector)
	block, _, found := strings.Cut(rest, "}")
	require.True(t, found, selector)
	list := map[string]string{}
	for _, line := range strings.Split(block, ";") {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.HasPrefix(name, "--") {
			list[name] = value
		}
	}
	return list
}

func TestPaletteHasContrast(t *testing.T) {
	css, err := os.ReadFile(styleSheet)
	require.NoError(t, err)
	themes := map[string]string{"light": "\n:root", "dark": ":root[data-theme=dark]",
		"dark by the system": ":root:not([data-theme=light],[data-theme=sun],[data-theme=dark])",
		"sun":                ":root[data-theme=sun]"}
	for name, selector := range themes {
		theme := tokens(t, string(css), selector)
		worst := math.Inf(1)
		for _, ground := range []string{"--surface", "--panel", "--press"} {
			for _, text := range []string{"--ink", "--soft", "--ok", "--wait", "--care"} {
				ratio := contrast(t, theme[text], theme[ground])
				worst = min(worst, ratio)
				want := 7.0
				if ground == "--press" && text != "--ink" {
					want = 4.5 // hovered and pressed controls, and status words on them
				}
				assert.GreaterOrEqual(t, ratio, want, "%s: %s on %s", name, text, ground)
			}
			assert.GreaterOrEqual(t, contrast(t, theme["--edge"], theme[ground]), 3.0, "%s: edges of controls on %s", name,
				ground)
			assert.GreaterOrEqual(t, contrast(t, theme["--go"], theme[ground]), 3.0, "%s: the main button on %s", name, ground)
		}
		assert.GreaterOrEqual(t, contrast(t, theme["--goink"], theme["--go"]), 7.0, "%s: words on the main button", name)
		assert.GreaterOrEqual(t, contrast(t, theme["--goink"], theme["--ink"]), 4.5,
			"%s: words on the main button while pressed, which is between --go and --ink", name)
		assert.GreaterOrEqual(t, contrast(t, theme["--panel"], theme["--ok"]), 4.5, "%s: the mark in a tick", name)
		t.Log(name, fmt.Sprintf("lowest contrast of text %.2f", worst))
	}
	assert.Equal(t, tokens(t, string(css), themes["dark"]), tokens(t, string(css), themes["dark by the system"]),
		"both ways to choose dark must look the same")
}

func TestStyleSheetIsSmallAndSelfContained(t *testing.T) {
	css, err := os.ReadFile(styleSheet)
	require.NoError(t, err)
	assert.Less(t, len(css), 30_000)
	for _, outside := range []string{"@import", "url(", "http:", "https:"} {
		assert.False(t, bytes.Contains(css, []byte(outside)), outside)
	}
	assert.Equal(t, bytes.Count(css, []byte("{")), bytes.Count(css, []byte("}")))
	for _, needed := range []string{"prefers-reduced-motion", "prefers-color-scheme:dark",
		"safe-area-inset-bottom", "focus-visible", "tabular-nums"} {
		assert.True(t, bytes.Contains(css, []byte(needed)), needed)
	}
}

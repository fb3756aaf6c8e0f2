package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// circlesOf counts a picture's balloons by size and colour.
func circlesOf(t *testing.T, svg string) map[string]int {
	t.Helper()
	doc, err := goquery.NewDocumentFromReader(strings.NewReader(svg))
	require.NoError(t, err)
	n := map[string]int{}
	doc.Find("circle[data-size]").Each(func(_ int, c *goquery.Selection) {
		n[c.AttrOr("data-size", "")+" "+c.AttrOr("data-colour", "")]++
		assert.NotEmpty(t, c.AttrOr("data-cluster", ""))
	})
	return n
}

// TestCLIPictureHasTheBalloonsOfThePlan compares what a script reads in a picture with what the plan prints.
func TestCLIPictureHasTheBalloonsOfThePlan(t *testing.T) {
	file := samples + "reading-room.json"
	code, text, complaint := cli("plan", file, "--json")
	require.Equal(t, 0, code, complaint)
	type sort struct {
		SizeIn, Count int
		Colour        struct{ Name string }
	}
	var plan struct {
		Pieces []struct {
			Piece struct {
				Name string `json:"name"`
			}
			By []sort
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &plan))
	require.NotEmpty(t, plan.Pieces)
	all := map[string]int{}
	for _, piece := range plan.Pieces {
		want := map[string]int{}
		for _, b := range piece.By {
			want[strconv.Itoa(b.SizeIn)+" "+b.Colour.Name] += b.Count
			all[strconv.Itoa(b.SizeIn)+" "+b.Colour.Name] += b.Count
		}
		code, svg, complaint := cli("picture", file, "--piece", piece.Piece.Name)
		require.Equal(t, 0, code, complaint)
		assert.Equal(t, want, circlesOf(t, svg), piece.Piece.Name)
	}
	out := filepath.Join(t.TempDir(), "room.svg")
	code, text, complaint = cli("picture", file, "--width", "640", "--out", out)
	require.Equal(t, 0, code, complaint)
	assert.Empty(t, text)
	svg, err := os.ReadFile(out)
	require.NoError(t, err)
	assert.Equal(t, all, circlesOf(t, string(svg)))
	assert.Contains(t, string(svg), `width="640"`)
}

// TestCLIPictureSaysWhatIsWrong names the pieces there are, and the limits.
func TestCLIPictureSaysWhatIsWrong(t *testing.T) {
	file := samples + "reading-room.json"
	assert.Contains(t, refused(t, "picture", file, "--piece", "Moon"),
		`no piece is called "Moon"; there are: Door garland`)
	assert.Contains(t, refused(t, "picture", file, "--width", "0"), "1 to 20,000")
	empty := filepath.Join(t.TempDir(), "empty.json")
	require.NoError(t, os.WriteFile(empty, []byte(`{"garlandry":1,"brief":{"title":"Nothing yet"}}`), 0o600))
	assert.Contains(t, refused(t, "picture", empty), "no balloons to draw yet")
	code, _, complaint := cli("picture", file, "--out", filepath.Join(t.TempDir(), "no", "folder.svg"))
	assert.Equal(t, 1, code)
	assert.Contains(t, complaint, "write the picture")
}

package view_test

import (
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/calc"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

// TestDrawingsAreLit checks that a calculator's page defines every paint of its drawing once, that balloons are painted
// and ghosts are not.
func TestDrawingsAreLit(t *testing.T) {
	painted := map[string]bool{}
	for _, c := range calc.All() {
		result, err := c.Compute(nil, c.Example.Raw(), measure.Imperial)
		require.NoError(t, err, c.Name)
		doc := tree(t, view.Calc(dora(), view.CalcPage{Calculator: c, Result: &result}))
		doc.Find(".drawing circle").Each(func(_ int, circle *goquery.Selection) {
			fill, filled := circle.Attr("fill")
			assert.Equal(t, circle.AttrOr("class", "") == "", filled, "%s: ghosts and marks are outlines", c.Name)
			if filled {
				painted[c.Name+" "+fill] = true
			}
		})
		if c.Name == "match" {
			assert.Equal(t, 6, doc.Find("circle.d-ghost").Length(), "2x11@10 + 1x18@16")
		}
		for paint := range painted {
			if id, is := strings.CutPrefix(paint, c.Name+" url(#"); is {
				assert.Equal(t, 1, doc.Find("[id='"+strings.TrimSuffix(id, ")")+"']").Length(), paint)
			}
		}
	}
	of := func(name string) (paints int) {
		for paint := range painted {
			if strings.HasPrefix(paint, name+" ") {
				paints++
			}
		}
		return paints
	}
	assert.Equal(t, 1, of("clusters"))
	assert.Equal(t, 2, of("accents"), "accents differ from the base")
	assert.Equal(t, 1, of("wall"))
}

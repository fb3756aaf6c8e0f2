package view_test

import (
	"strconv"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc/measure"
	"garlandry/pwa/view"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A build sheet gives untrained hands all that they need, without colours: the number of each colour with how many
// balloons it takes, each kind of cluster, and the order of the kinds.
func TestBuildSheet(t *testing.T) {
	j := archOfSixHundred("3x11@10", 3)
	p := plan.Make(j)
	c := p.Pieces[0]
	require.Greater(t, len(c.Laid.Kinds), 1)
	doc := tree(t, view.BuildSheets(dora(), j, p, ""))
	sheet := doc.Find("article.sheet")
	require.Equal(t, 1, sheet.Length())
	assert.Zero(t, sheet.Find("[fill]").Length(), "it is black on white")
	byNumber := map[string]int{}
	sheet.Find(".legend li").Each(func(_ int, li *goquery.Selection) {
		n := li.Find("svg text").Text()
		at, err := strconv.Atoi(n)
		require.NoError(t, err)
		assert.Equal(t, j.Colours[at-1].Name, li.Find(".rowtitle").Text())
		for _, words := range strings.Split(li.Find(".soft").Text(), ", ") {
			count, err := strconv.Atoi(strings.Fields(words)[0])
			require.NoError(t, err)
			byNumber[n] += count
		}
	})
	want := map[string]int{}
	for _, b := range c.By {
		for i, colour := range j.Colours {
			if colour.ID == b.Colour.ID {
				want[strconv.Itoa(i+1)] += b.Count
			}
		}
	}
	assert.Equal(t, want, byNumber)
	sheet.Find(".cover svg circle+text").Each(func(_ int, text *goquery.Selection) {
		assert.Contains(t, want, text.Text())
	})
	assert.Greater(t, sheet.Find(".cover svg circle+text").Length(), 50)
	for i, k := range c.Laid.Kinds {
		li := sheet.Find(".kinds").First().Find("li").Eq(i)
		assert.Equal(t, strconv.Itoa(k.Clusters)+" x "+k.Name, li.Find(".rowtitle").Text())
		assert.Equal(t, k.Words(), li.Find(".soft").Text())
		drawn := 0
		for _, b := range k.By {
			drawn += b.Count
		}
		assert.Equal(t, drawn, li.Find("svg circle").Length(), "its balloons, each once")
	}
	var order []string
	sheet.Find(".order li").Each(func(_ int, li *goquery.Selection) { order = append(order, li.Text()) })
	assert.Equal(t, c.InOrder(), order)
	require.NotEmpty(t, order)
}

// One piece can be printed alone, and all of them go with the cards.
func TestBuildSheetsOfPieces(t *testing.T) {
	j := archOfSixHundred("3x11@10", 3)
	second := j.Pieces[0]
	second.ID, second.Name = "second", "Second arch"
	j.Pieces = append(j.Pieces, second)
	p := plan.Make(j)
	assert.Equal(t, 2, tree(t, view.BuildSheets(dora(), j, p, "")).Find("article.sheet").Length())
	alone := tree(t, view.BuildSheets(dora(), j, p, "second"))
	assert.Equal(t, "Build Second arch", alone.Find("article.sheet h2").Text())
	with := tree(t, view.CardSheet(dora(), j, p)).Find("article.sheet h2").Text()
	assert.Contains(t, with, "Build Second arch")
	assert.Zero(t, tree(t, view.BuildSheets(dora(), job.Job{}, plan.Plan{}, "")).Find("article").Length())
}

// The bar below a picture is as long as it says, in the job's units.
func TestScaleBar(t *testing.T) {
	for _, row := range []struct {
		clusters int // 250 mm each
		units    string
		says     string
		mm       float64
	}{{4, "metric", "0.2 m", 200}, {40, "metric", "2 m", 2000}, {4, "imperial", "1 ft", 304.8},
		{40, "imperial", "10 ft", 3048}} {
		l := rowOfBalloons(row.clusters)
		doc := tree(t, view.Front{Look: l, Bar: true, Units: measure.System(row.units)}.Draw())
		assert.Equal(t, row.says, doc.Find("text").Text())
		_, long, found := strings.Cut(doc.Find("path.bar").AttrOr("d", ""), "h")
		require.True(t, found)
		drawn, err := strconv.ParseFloat(long, 64)
		require.NoError(t, err)
		wide := l.RightMM - l.LeftMM
		scale := 1000 / (wide * 1.04) // the picture has 2 % of room at each side
		assert.InDelta(t, row.mm*scale, drawn, 1, "%+v", row)
	}
}

// Balloons whose colour nobody has chosen yet are drawn and listed too, in black like the others.
func TestBuildSheetWithoutColours(t *testing.T) {
	j := job.Preview([]job.Change{job.Put("piece/arch", "name", "Arch"), job.Put("piece/arch", "kind", "garland"),
		job.Put("piece/arch", "line", "arch"), job.Put("piece/arch", "width_mm", 2600),
		job.Put("piece/arch", "height_mm", 2500), job.Put("piece/arch", "recipe", "3x11@10"),
		job.Put("piece/arch", "accents", 0)})
	p := plan.Make(j)
	sheet := tree(t, view.BuildSheets(dora(), j, p, "")).Find("article.sheet")
	assert.Zero(t, sheet.Find("[fill]").Length(), "it is black on white")
	assert.Equal(t, "?", sheet.Find(".legend li svg text").Text())
	assert.Equal(t, "Colour not chosen", sheet.Find(".legend .rowtitle").Text())
	assert.Equal(t, strconv.Itoa(p.Pieces[0].Balloons)+" of 11-inch", sheet.Find(".legend .soft").Text())
	assert.Contains(t, sheet.Find(".cover svg circle+text").Text(), "??")
	assert.Equal(t, 1, sheet.Find(".kinds svg.numbered").Length())
}

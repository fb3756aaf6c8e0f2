package view_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/pwa/view"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
)

// Balloons on ribbons show their knots where they are drawn large. Each knot stands right behind its balloon, below it.
func TestKnotsOfBalloonsOnRibbons(t *testing.T) {
	bouquet := func(gas string, count int) job.Job {
		return job.Preview([]job.Change{job.Put("piece/b", "name", "B"), job.Put("piece/b", "kind", "bouquets"),
			job.Put("piece/b", "count", count), job.Put("piece/b", "each", 5), job.Put("piece/b", "gas", gas),
			job.Put("piece/b", "to_in", 11), job.Put("piece/b", "colours", []job.Share{{Colour: "coral", Weight: 1}}),
			job.Put("colour/coral", "name", "Coral"), job.Put("colour/coral", "value", "#e8604c")})
	}
	for _, row := range []struct {
		name  string
		job   job.Job
		front view.Front
		knots int
		class string
	}{
		{"one bouquet", bouquet("helium", 1), view.Front{}, 5, "knot"},
		{"six bouquets", bouquet("helium", 6), view.Front{}, 30, "knot little"},
		{"forty bouquets, too small", bouquet("helium", 40), view.Front{}, 0, ""},
		{"on sticks", bouquet("air", 1), view.Front{}, 0, ""},
		{"a thumbnail", bouquet("helium", 1), view.Front{Small: true}, 0, ""},
		{"still to make", bouquet("helium", 1), view.Front{Progress: true}, 0, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := plan.Make(row.job)
			row.front.Look = p.Look(&p.Pieces[0], 0)
			knots := tree(t, row.front.Draw()).Find("path.knot")
			assert.Equal(t, row.knots, knots.Length())
			knots.Each(func(_ int, knot *goquery.Selection) {
				assert.Equal(t, row.class, knot.AttrOr("class", ""))
				assert.Equal(t, "circle", goquery.NodeName(knot.Next()))
				assert.True(t, strings.HasPrefix(knot.AttrOr("fill", ""), "#e8604c"), knot.AttrOr("fill", ""))
			})
		})
	}
}

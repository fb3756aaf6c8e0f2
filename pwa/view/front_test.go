package view_test

import (
	"bytes"
	"compress/gzip"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/look"
	"garlandry/pwa/view"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	g "maragu.dev/gomponents"
)

// row is a look of balloons in a row, two to a cluster, of two colours in turn, with an accent.
func rowOfBalloons(clusters int) *look.Look {
	l := &look.Look{Colours: []job.Colour{{ID: "coral", Name: "Coral", Value: "#e5604d", Finish: "standard"},
		{ID: "gold", Name: "Gold", Value: "#b98a3c", Finish: "mirror"}}, Clusters: clusters, Stands: true,
		RightMM: float64(clusters) * 250, TopMM: 250}
	for i := range 2 * clusters {
		l.Balloons = append(l.Balloons, look.Balloon{XMM: float64(i)*125 + 125, YMM: 125, RadiusMM: 125, SizeIn: 11,
			Colour: i % 2, Cluster: i / 2})
	}
	l.Balloons = append(l.Balloons, look.Balloon{XMM: 125, YMM: 125, DepthMM: 200, RadiusMM: 50, SizeIn: 5, Layer: 1,
		Accent: true})
	return l
}

// first is n clusters that are made.
func first(n int) []bool { return slices.Repeat([]bool{true}, n) }

// done is how far layers are: which clusters are made, and how many are up, in turn.
func done(parts ...any) (list []view.LayerDone) {
	for i := 0; i < len(parts); i += 2 {
		list = append(list, view.LayerDone{Made: parts[i].([]bool), Up: parts[i+1].(int)})
	}
	return list
}

// What is made is filled, what is to do is an outline. Accents are when they are on.
func TestFrontFillsAsWorkIsMade(t *testing.T) {
	for _, row := range []struct {
		name              string
		v                 view.Front
		built, made, toDo int
	}{
		{"the design", view.Front{}, 21, 0, 0},
		{"nothing made", view.Front{Progress: true}, 0, 0, 21},
		{"three clusters made", view.Front{Progress: true, Layers: done(first(3), 0)}, 0, 6, 15},
		{"all made, and the accent", view.Front{Progress: true, Layers: done(first(10), 0, first(1), 0)}, 0, 21, 0},
		{"the last two made", view.Front{Progress: true, Layers: done([]bool{8: true, 9: true}, 0)}, 0, 4, 17},
		{"more than there are", view.Front{Progress: true, Layers: done(first(99), 0)}, 0, 20, 1},
		{"put up", view.Front{Progress: true, Layers: done(first(10), 10, first(1), 0)}, 20, 1, 0},
		{"put up, and the accent", view.Front{Progress: true, Layers: done(first(10), 10, first(1), 1)}, 21, 0, 0},
		{"a section put up", view.Front{Progress: true, Layers: done(first(10), 4, first(1), 0)}, 8, 13, 0},
		{"up and not made", view.Front{Progress: true, Layers: done(first(2), 4)}, 4, 0, 17},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.v.Look = rowOfBalloons(10)
			doc := tree(t, row.v.Draw())
			made, toDo := doc.Find(".made circle").Length(), doc.Find(".yet circle").Length()
			assert.Equal(t, row.made, made)
			assert.Equal(t, row.toDo, toDo)
			assert.Equal(t, row.built, doc.Find("circle").Length()-made-toDo)
			doc.Find(".yet circle").Each(func(_ int, c *goquery.Selection) {
				_, filled := c.Attr("fill")
				assert.False(t, filled)
			})
		})
	}
	assert.Nil(t, view.Front{}.Draw(), "no look, no picture")
}

// A thumbnail has at most 60 circles and 3 kB, a card at most 400.
func TestFrontsAreSmall(t *testing.T) {
	big := rowOfBalloons(900)
	small := render(t, view.Thumbnail(big.Fewer(48)))
	assert.LessOrEqual(t, strings.Count(small, "<circle"), 60)
	assert.Greater(t, strings.Count(small, "<circle"), 30)
	assert.LessOrEqual(t, len(small), 3000)
}

// So has the thumbnail of each kind of piece with its poles, ribbons and hoop, in the list and on the overview.
func TestThumbnailsOfEveryKindAreSmall(t *testing.T) {
	for _, kind := range job.PieceKinds() {
		for _, count := range []int{1, 6, 30} {
			j := job.Preview([]job.Change{job.Put("piece/it", "name", "It"), job.Put("piece/it", "kind", kind.Value),
				job.Put("colour/coral", "name", "Coral"), job.Put("piece/it", "digits", "40"),
				job.Put("piece/it", "each", 9), job.Put("piece/it", "count", count),
				job.Put("piece/it", "counts", []job.TypedCount{{SizeIn: 11, Colour: "coral", Count: 99}})})
			p := plan.Make(j)
			drawn := 0
			for _, page := range []g.Node{view.Pieces(dora(), j, p), view.Overview(dora(), j, p, nil)} {
				for _, svg := range strings.Split(render(t, page), "<svg ")[1:] {
					svg, _, _ = strings.Cut(svg, "</svg>")
					if strings.HasPrefix(svg, `class="front"`) && !strings.Contains(svg, "aria-label") {
						drawn++
						assert.LessOrEqual(t, len(svg), 3000, "%d of %s", count, kind.Value)
					}
				}
			}
			assert.Equal(t, 2, drawn, "%d of %s", count, kind.Value)
		}
	}
}

// The words of a picture are for those who do not see it; without words it is hidden from them.
func TestFrontSaysWhatItShows(t *testing.T) {
	said := tree(t, view.Front{Look: rowOfBalloons(2), Label: "Arch, 2 of 26 clusters"}.Draw())
	assert.Equal(t, "Arch, 2 of 26 clusters", said.Find("svg[role=img]").AttrOr("aria-label", ""))
	assert.Equal(t, "true", tree(t, view.Front{Look: rowOfBalloons(2)}.Draw()).Find("svg").AttrOr("aria-hidden", ""))
}

// The picture of a piece says how far it is, of which kinds it is made and how thick it looks. Of many kinds it says
// only how many.
func TestAPieceSaysItsKindsAndItsThickness(t *testing.T) {
	j := job.Preview([]job.Change{job.Put("piece/it", "name", "Beam"), job.Put("piece/it", "kind", "garland"),
		job.Put("piece/it", "recipe", "2x11@10"), job.Put("piece/it", "accents", 0), job.Put("piece/it", "pattern", "single"),
		job.Put("colour/coral", "name", "Coral"), job.Put("colour/sand", "name", "Sand"),
		job.Put("piece/it", "colours", []job.Share{{Colour: "coral", Weight: 2}, {Colour: "sand", Weight: 1}})})
	p := plan.Make(j)
	c := p.Pieces[0]
	doc := tree(t, view.PieceShown(dora(), j, c, p.Look(&c, 0), nil))
	const kinds = "; kinds: 12 x A: 4 Coral 11-inch. 6 x B: 4 Sand 11-inch. 1 x C: 3 Coral, 1 Sand 11-inch"
	assert.Equal(t, "Beam from the front, to scale: 19 clusters"+kinds,
		doc.Find("#piece-front svg").AttrOr("aria-label", ""))
	assert.Regexp(t, `^Looks \S.* wide, .* high, 2 ft 5 in thick$`, doc.Find("#piece-front figcaption").Text())
	card, _ := view.FindCard(p, c.MakeKey)
	assert.Equal(t, "Beam, 0 of 19 clusters"+kinds,
		tree(t, view.CardPage(dora(), j, p, card)).Find(".picture svg").AttrOr("aria-label", ""))

	c.Laid.Kinds = make([]count.ClusterKind, 9)
	assert.Equal(t, "Beam from the front, to scale: 19 clusters; 9 kinds",
		tree(t, view.PieceShown(dora(), j, c, p.Look(&c, 0), nil)).Find("#piece-front svg").AttrOr("aria-label", ""))
}

// A picture in a file is whole, well-formed XML. Each circle says what it stands for, and all its paint is defined.
func TestFrontInAFile(t *testing.T) {
	text := render(t, view.Front{Look: rowOfBalloons(3), Label: "Row", Person: true}.File(800))
	reader := xml.NewDecoder(strings.NewReader(text))
	for {
		_, err := reader.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
	}
	assert.NotContains(t, text, "NaN")
	layered := rowOfBalloons(3)
	layered.Balloons = append(layered.Balloons, look.Balloon{RadiusMM: 60, SizeIn: 9, Layer: 2, Cluster: 4, Colour: 1})
	doc := tree(t, view.Front{Look: layered, Label: "Row"}.File(800))
	sizes := map[string]int{}
	doc.Find("circle[data-size]").Each(func(_ int, c *goquery.Selection) {
		sizes[c.AttrOr("data-size", "")+" "+c.AttrOr("data-colour", "")+" "+c.AttrOr("data-cluster", "")]++
		_, err := strconv.Atoi(c.AttrOr("cx", ""))
		require.NoError(t, err)
		id := strings.TrimSuffix(strings.TrimPrefix(c.AttrOr("fill", ""), "url(#"), ")")
		assert.Equal(t, 1, doc.Find("[id='"+id+"']").Length(), id)
	})
	assert.Equal(t, map[string]int{"11 Coral 1": 1, "11 Gold 1": 1, "11 Coral 2": 1, "11 Gold 2": 1, "11 Coral 3": 1,
		"11 Gold 3": 1, "5 Coral a1": 1, "9 Gold l2-5": 1}, sizes)
}

// Only checked colours reach an attribute.
func TestShadesTakeOnlyHexColours(t *testing.T) {
	text := render(t, view.Shades(job.Colour{Value: `red" onload="x`, Finish: "standard"}))
	assert.NotContains(t, text, "onload")
}

// The overview of twelve pieces is sent in at most 60 kB.
func TestOverviewOfTwelvePiecesIsSmall(t *testing.T) {
	j := archOfSixHundred("3x11@10", 3)
	pieces := j.Pieces
	for i := range 11 {
		p := pieces[0]
		p.ID, p.Name = "arch"+strconv.Itoa(i), "Arch "+strconv.Itoa(i)
		j.Pieces = append(j.Pieces, p)
	}
	html := render(t, view.Overview(dora(), j, plan.Make(j), nil))
	require.Equal(t, 12, strings.Count(html, `id="piece-`))
	var sent bytes.Buffer
	zip := gzip.NewWriter(&sent)
	_, err := zip.Write([]byte(html))
	require.NoError(t, err)
	require.NoError(t, zip.Close())
	t.Logf("%d bytes, %d as sent", len(html), sent.Len())
	assert.LessOrEqual(t, sent.Len(), 60_000)
}

// The person beside a picture is seen from head to foot, also beside what hangs.
func TestThePersonIsSeenWhole(t *testing.T) {
	for _, row := range []struct {
		name            string
		stands          bool
		bottomMM, topMM float64
	}{
		{"a low piece on the floor", true, 0, 300},
		{"a high piece on the floor", true, 0, 3000},
		{"hung about its line", false, -600, 80},
		{"hung far above its line", false, 900, 1400},
	} {
		t.Run(row.name, func(t *testing.T) {
			l := rowOfBalloons(4)
			l.Stands, l.BottomMM, l.TopMM = row.stands, row.bottomMM, row.topMM
			doc := tree(t, view.Front{Look: l, Person: true}.Draw())
			var wide, high float64
			_, err := fmt.Sscanf(doc.Find("svg").AttrOr("viewBox", ""), "0 0 %f %f", &wide, &high)
			require.NoError(t, err)
			head := doc.Find(".person circle")
			number := func(name string) float64 {
				n, err := strconv.ParseFloat(head.AttrOr(name, ""), 64)
				require.NoError(t, err)
				return n
			}
			assert.GreaterOrEqual(t, number("cy")-number("r"), 0.0)
			steps := strings.FieldsFunc(doc.Find(".person path").AttrOr("d", ""), func(r rune) bool {
				return strings.ContainsRune("ML Z", r)
			})
			require.NotEmpty(t, steps)
			for i := 1; i < len(steps); i += 2 {
				y, err := strconv.ParseFloat(steps[i], 64)
				require.NoError(t, err)
				assert.GreaterOrEqual(t, y, 0.0)
				assert.LessOrEqual(t, y, high)
			}
		})
	}
}

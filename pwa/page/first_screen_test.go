package page_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

var figure = regexp.MustCompile(`\d\d:\d\d|\d+ %`)

// The overview begins with whether all will be done, what is next and what to decide, and says no figure twice.
func TestTheOverviewAnswersThreeThingsFirst(t *testing.T) {
	w := demo(t)
	for _, row := range []struct {
		name   string
		change form.Values // of the brief
		help   bool        // worked out already
		parts  []string    // ids of the first panels, in this order
	}{
		{"a job with times", nil, false, []string{"clock-answer", "next-card", "decisions"}},
		{"tight, with help", form.Values{"in": {"2027-05-08T06:50"}}, true,
			[]string{"clock-answer", "next-card", "decisions"}},
		{"late, with help", form.Values{"in": {"2027-05-08T07:00"}}, true,
			[]string{"clock-answer", "next-card", "decisions"}},
		{"without times", form.Values{"in": {""}, "doors": {""}}, false, []string{"", "next-card", "decisions"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			v := w.visitor(job.Owner, "Dora")
			if row.change != nil {
				v.visit("/jobs/demo/brief").submit("#edit-brief", row.change)
			}
			if row.help {
				w.clocks = &forecast.Cache{AtOnce: true}
				v.visit("/jobs/demo/clock?help=1")
			}
			v.visit("/jobs/demo")
			assert.Equal(t, row.help, v.doc.Find("#clock-answer .buys").Length() == 1, "the best fix is a button")
			var ids []string
			v.doc.Find(".columns > div").First().ChildrenFiltered(".panel").Each(func(_ int, s *goquery.Selection) {
				ids = append(ids, s.AttrOr("id", ""))
			})
			assert.Equal(t, row.parts, ids)
			assert.Equal(t, 1, v.doc.Find("#next-card .go").Length(), "one button for what is next")
			said := map[string]int{}
			v.doc.Find("#clock-answer,.heading").Each(func(_ int, s *goquery.Selection) {
				for _, figure := range figure.FindAllString(s.Text(), -1) {
					said[figure]++
				}
			})
			for figure, times := range said {
				assert.Equal(t, 1, times, figure)
			}
		})
	}
}

// An answered question is asked no more: it is folded, with its answer, and can be answered anew there.
func TestAnAnsweredQuestionIsFoldedWithItsAnswer(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora").visit("/jobs/demo")
	require.Contains(t, v.doc.Find("#decisions summary").Text(), "Blush has no 18-inch")
	v.submit("#decisions form:has([value=others])", nil)
	assert.NotContains(t, v.doc.Find("#decisions").Text(), "Blush")
	assert.Contains(t, v.doc.Find("#decided summary").Text(), "Blush has no 18-inchUse the other colours")
	_, open := v.doc.Find("#decided details").Attr("open")
	assert.False(t, open)
	v.submit("#decided form:has([value=keep])", nil)
	assert.Contains(t, v.doc.Find("#decided summary").Text(), "Keep 18-inch")
}

// What a colour that lacks a size can be made of is drawn wherever that is asked: on the job, its pieces and a piece.
func TestAnswersAreDrawnWhereverTheyAreAsked(t *testing.T) {
	v := demo(t).visitor(job.Owner, "Dora")
	for _, at := range []string{"/jobs/demo", "/jobs/demo/pieces", "/jobs/demo/pieces/door"} {
		drawn := v.visit(at).doc.Find("#decisions form svg.kind")
		assert.GreaterOrEqual(t, drawn.Length(), 2, at)
	}
	assert.Contains(t, v.visit("/jobs/demo").doc.Find(".cover svg").AttrOr("aria-label", ""), "Door garland, Desk swag")
}

func TestAFullCardSaysSoAndOffersTheNext(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Helper, "Ines").visit("/jobs/demo/cards/make/door")
	assert.Equal(t, 0, v.doc.Find("#next-up").Length(), "there is work left")
	v.submit(".tallyone form:has([value=count])", nil)
	all := regexp.MustCompile(`All \d+ clusters made`)
	assert.Regexp(t, all, v.doc.Find("#doing .big").Text())
	next := v.doc.Find("#next-up")
	require.Equal(t, 1, next.Length())
	assert.True(t, next.HasClass("go"))
	assert.NotContains(t, next.AttrOr("href", ""), "make/door")
	assert.Equal(t, 0, v.doc.Find("#doing form .go").Length(), "one button stands out")

	v.submit(".tallyone form:has([value=add])", nil)
	assert.Regexp(t, `\d+ counted: 1 more than needed\.`, v.text()+v.doc.Find("#flash").Text())
	assert.Contains(t, v.doc.Find("#doing").Text(), "1 more than needed")
	v.submit("#flash form", nil)
	assert.NotContains(t, v.doc.Find("#doing").Text(), "more than needed")
	assert.Regexp(t, all, v.doc.Find("#doing .big").Text())
}

// A tick that is done offers the next card too.
func TestATickedCardOffersTheNext(t *testing.T) {
	v := demo(t).visitor(job.Helper, "Ines").visit("/jobs/demo/cards/shop")
	v.submit("#doing form:has([value=tick])", nil)
	assert.True(t, strings.HasPrefix(v.doc.Find("#next-up").Text(), "Next: "), v.text())
}

// The clock shows the best fix first, as a button that says what it buys, and at most three before one asks for more.
func TestTheClockShowsTheBestFixFirst(t *testing.T) {
	w := demo(t)
	v := w.visitor(job.Owner, "Dora")
	v.visit("/jobs/demo/brief").submit("#edit-brief", form.Values{"in": {"2027-05-08T09:45"}})
	v.visit("/jobs/demo/clock?help=1")
	fixes := v.doc.Find("#fixes > li")
	require.Positive(t, fixes.Length(), v.text())
	assert.LessOrEqual(t, fixes.Length(), 3)
	first := fixes.First().Find("form button")
	assert.True(t, first.HasClass("go"))
	fixes.Each(func(_ int, s *goquery.Selection) {
		assert.Regexp(t, `: ((under 1|\d+) % to \d+ %|safe bet \d\d:\d\d to \d\d:\d\d)$`, s.Find("button").Text())
	})
	assert.Equal(t, 1, v.doc.Find("#fixes .go").Length())
	before := v.doc.Find("#clock-answer").Text()
	v.submit("#fixes li:first-child form", nil)
	assert.NotEqual(t, before, v.doc.Find("#clock-answer").Text())
	v.submit("#flash form", nil)
	assert.Equal(t, before, v.doc.Find("#clock-answer").Text())
}

// With nothing at hand and eight kinds of pieces for two, no single change is enough. Those that are enough stand
// first; of the others, none is worse than the one below it.
func TestTheBestFixIsTheFirstButton(t *testing.T) {
	v := newWorld(t).visitor(job.Owner, "Dora")
	var build []string
	for _, p := range view.StartPieces() {
		build = append(build, p.Key)
	}
	v.visit("/new").submit("#new-job", form.Values{"build": build, "colours": {"coral", "sand"}})
	require.Equal(t, 200, v.reply.Status, v.text())
	v.visit("/jobs/" + v.current().ID + "/clock?help=1")
	var odds []int
	v.doc.Find("#help .buys").Each(func(_ int, s *goquery.Selection) {
		if strings.HasPrefix(s.Text(), "safe bet ") {
			odds = append(odds, 0)
			return
		}
		n, err := strconv.Atoi(regexp.MustCompile(`\d+`).FindString(s.Text()))
		require.NoError(t, err, s.Text())
		odds = append(odds, n)
	})
	require.Greater(t, len(odds), 2)
	enough := 0
	for enough < len(odds) && odds[enough] >= 90 {
		enough++
	}
	for i, percent := range odds[enough:] {
		assert.Less(t, percent, 90, "button %d of %v", enough+i+1, odds)
		assert.True(t, i == 0 || percent <= odds[enough+i-1], "button %d of %v", enough+i+1, odds)
	}
}

// What the sentence of the clock says is not said again below it.
func TestTheClockSaysNoFigureTwice(t *testing.T) {
	for _, in := range []string{"08:30", "09:30", "10:00", "10:45"} {
		v := demo(t).visitor(job.Owner, "Dora")
		v.visit("/jobs/demo/brief").submit("#edit-brief", form.Values{"in": {"2027-05-08T" + in}})
		v.visit("/jobs/demo/clock")
		sentence := v.doc.Find(".verdict").Text()
		v.doc.Find("#clock-answer .facts dd").Each(func(_ int, s *goquery.Selection) {
			assert.NotContains(t, sentence, s.Text(), in)
		})
	}
}

// While the full plan is worked out, the figure of the answer is "about"; then it is the one of the full plan.
func TestAFirstLookSaysAbout(t *testing.T) {
	w := demo(t)
	work := map[string]func(func()){}
	w.clocks = &forecast.Cache{Later: func(key string, do func(func())) { work[key] = do }}
	v := w.visitor(job.Owner, "Dora").visit("/jobs/demo")
	rough := regexp.MustCompile(`^About \d+ min late\.|^Tight: about \d+ %`)
	assert.Regexp(t, rough, v.doc.Find(".verdict").Text())
	for len(work) > 0 {
		for key, do := range work {
			delete(work, key)
			do(func() {})
		}
		v.visit("/jobs/demo")
	}
	assert.NotContains(t, strings.ToLower(v.doc.Find(".verdict").Text()), "about")
	assert.Regexp(t, `^\d+ min late\.|^Tight: \d+ %`, v.doc.Find(".verdict").Text())
}

package gallery_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The clock of a job that one person cannot do alone names each card, says what keeps people from it, and offers a
// press that does all of them before those for one card.
func TestTheClockSaysWhatKeepsPeopleFromACard(t *testing.T) {
	pages := clocksOf(t)
	for _, name := range []string{"clock-alone", "clock-help-alone"} {
		cards := pages[name].doc.Find("#blocked .hints li")
		require.Greater(t, cards.Length(), 1, name)
		cards.Each(func(_ int, card *goquery.Selection) {
			assert.Regexp(t, `needs 2 people at once; 1 is there|waits for a card that nobody can do`, card.Text())
		})
	}
	cures := pages["clock-alone"].doc.Find("#blocked .fixes").Text()
	all, one := strings.Index(cures, "Do all 3 with one pair"), strings.Index(cures, "Do “Put up")
	assert.Positive(t, all)
	assert.Less(t, all, one)
	assert.Equal(t, "What would help", pages["clock-alone"].doc.Find("#help h2").Text(), "a must-have is missing")
}

// The times below a picture of the clock stand apart, and none is cut at the right edge: a time is 38 px wide, and the
// picture at least 256.
func TestTimesBelowTheClockStandApart(t *testing.T) {
	const width = 38 * 100.0 / 256
	shown := 0
	for name, page := range clocksOf(t) {
		page.doc.Find(".clockpicture").Each(func(_ int, picture *goquery.Selection) {
			before := -width
			picture.Find("text").Each(func(_ int, text *goquery.Selection) {
				if !regexp.MustCompile(`^\d\d:\d\d$`).MatchString(text.Text()) {
					return
				}
				at, err := strconv.ParseFloat(strings.TrimSuffix(text.AttrOr("x", ""), "%"), 64)
				require.NoError(t, err)
				assert.GreaterOrEqual(t, at-before, width, "%s: %s", name, text.Text())
				assert.Less(t, at, 100-width+16*100.0/256, "%s: %s, with the panel's padding", name, text.Text())
				before = at
				shown++
			})
		})
	}
	assert.Greater(t, shown, 10)
}

// clocksOf returns the clock pages of the gallery by name.
func clocksOf(t *testing.T) map[string]drawn {
	t.Helper()
	pages := map[string]drawn{}
	for _, p := range drawAll(t) {
		if strings.HasPrefix(p.Name, "clock-") {
			pages[p.Name] = p
		}
	}
	return pages
}

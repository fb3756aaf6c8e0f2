package gallery_test

import (
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestHelpUnderAFieldIsShort checks on every page that help of more than eight words stands behind a "?". Under a
// figure of one's own stand the table's figure, its limits and its source, which are not help.
func TestHelpUnderAFieldIsShort(t *testing.T) {
	pages, err := pagesOnce()
	require.NoError(t, err)
	short, long := 0, 0
	for _, p := range pages {
		var html strings.Builder
		require.NoError(t, p.Document(sheets("")).Render(&html))
		doc, err := goquery.NewDocumentFromReader(strings.NewReader(html.String()))
		require.NoError(t, err)
		doc.Find(".field .help").NotSelection(doc.Find(".help:has(.source)")).Each(func(_ int, help *goquery.Selection) {
			if help.ParentsFiltered(".morehelp").Length() > 0 {
				long++
				return
			}
			short++
			assert.LessOrEqual(t, len(strings.Fields(help.Text())), 8, "%s: %s", p.Name, help.Text())
		})
	}
	assert.Positive(t, short)
	assert.Positive(t, long)
}

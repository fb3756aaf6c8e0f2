package gallery_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"garlandry/pwa/view"
)

// Every paint that a picture names is defined on its page, once.
func TestPaintIsDefined(t *testing.T) {
	pages, err := pagesOnce()
	require.NoError(t, err)
	painted := 0
	for _, p := range pages {
		var html strings.Builder
		require.NoError(t, p.Document(view.DefaultAssets()).Render(&html))
		missing := map[string]int{}
		for _, paint := range regexp.MustCompile(`url\(#([^)]*)\)`).FindAllStringSubmatch(html.String(), -1) {
			missing[paint[1]] = strings.Count(html.String(), `id="`+paint[1]+`"`)
		}
		for id, defined := range missing {
			assert.Equal(t, 1, defined, "%s on %s", id, p.Name)
			painted++
		}
	}
	assert.Greater(t, painted, 50)
}

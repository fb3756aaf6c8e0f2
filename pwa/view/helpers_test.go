package view_test

import (
	"strings"
	"testing"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/require"
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/calc/measure"
	"garlandry/pwa/view"
)

// render returns a node as HTML.
func render(t testing.TB, n g.Node) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, n.Render(&b))
	return b.String()
}

// tree renders a node and parses it.
func tree(t testing.TB, n g.Node) *goquery.Document {
	t.Helper()
	doc, err := goquery.NewDocumentFromReader(strings.NewReader(render(t, n)))
	require.NoError(t, err)
	return doc
}

// ines is the frame of a helper in job "j" at a fixed time.
func ines() view.Frame {
	return view.Frame{Title: "Page", Role: job.Helper, Name: "Ines", Path: "/jobs/j/next", JobID: "j",
		JobTitle: "Reading room reopening", Now: 1_800_000_000_000, Units: measure.Imperial}
}

// dora is the frame of the owner of job "j".
func dora() view.Frame {
	f := ines()
	f.Role, f.Name, f.Path = job.Owner, "Dora", "/jobs/j"
	return f
}

// hostile tries to break out of markup in every way.
const hostile = `<b>&"'</b></textarea><script>x</script>`

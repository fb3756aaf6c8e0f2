package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/PuerkitoBio/goquery"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	macintosh = "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 Version/18.0 Safari/605.1.15"
	iPhone    = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_0 like Mac OS X) AppleWebKit/605.1.15 Version/18.0 Safari/604.1"
)

// installers are browsers with what each is told about installing the app.
var installers = []struct {
	name, agent, touch string
	steps              []string // a word of each; none: nothing is offered
	code               bool     // the installed app may ask for a code
}{
	{"iPhone, Safari", iPhone, "5",
		[]string{"Share", "Add to Home Screen", "home screen"}, true},
	{"an iPad that says Macintosh", macintosh, "5",
		[]string{"Share", "Add to Home Screen", "home screen"}, true},
	{"Mac, Safari", macintosh, "0",
		[]string{"Add to Dock", "Open Garlandry from the Dock"}, true},
	{"Android, Chrome", "Mozilla/5.0 (Linux; Android 10; K) AppleWebKit/537.36 Chrome/140.0.0.0 Mobile Safari/537.36", "5",
		[]string{"three dots", "Install", "home screen"}, false},
	{"Android, Firefox", "Mozilla/5.0 (Android 15; Mobile; rv:140.0) Gecko/140.0 Firefox/140.0", "5",
		[]string{"three dots", "Add app to Home screen", "home screen"}, false},
	{"a computer, Chrome", "Mozilla/5.0 (Windows NT 10.0; Win64; x64) AppleWebKit/537.36 Chrome/140.0.0.0 Safari/537.36",
		"0", []string{"install sign", "choose Install"}, false},
	{"a computer, Firefox", "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0", "0", nil, false},
}

// part reads a part of a drawn page.
func part(t *testing.T, d device.Drawing, selector string) *goquery.Selection {
	doc, err := goquery.NewDocumentFromReader(strings.NewReader(d.Parts["page"]))
	require.NoError(t, err)
	return doc.Find(selector)
}

// TestInstallingIsExplainedWhereItIsNeeded checks the offer on the page after joining and after the first plan, for
// each platform: the right steps, a way to a code where the app may ask for one, and nothing where there is nothing to
// do.
func TestInstallingIsExplainedWhereItIsNeeded(t *testing.T) {
	for _, row := range installers {
		t.Run(row.name, func(t *testing.T) {
			w := newWorld(t)
			owner := w.phone(job.Owner, "Dora")
			owner.enter("/")
			planned := owner.newJob("p").Path
			owner.sent() // nothing is offered while something waits to be shared
			id := strings.Split(planned, "/")[2]
			for _, visit := range []struct{ path, selector string }{{"/jobs/" + id, "#install"},
				{"/jobs/" + id + "/next", "#install"}, {"/phone", "#home-screen"}} {
				tell := func(installed, app string) {
					owner.inbox <- device.Message{Type: "browser", Form: [][2]string{{"agent", row.agent},
						{"touch", row.touch}, {"installed", installed}, {"app", app}}}
				}
				tell("", "kept")
				panel := part(t, owner.get(visit.path), visit.selector)
				if row.steps == nil && visit.selector == "#install" {
					assert.Zero(t, panel.Length(), visit.path)
					continue
				}
				require.Equal(t, 1, panel.Length(), visit.path)
				steps := panel.Find("ol.steps li")
				require.Equal(t, len(row.steps), steps.Length(), visit.path)
				for i, word := range row.steps {
					assert.Contains(t, steps.Eq(i).Text(), word)
				}
				form := panel.Find(`form[action="/phone/code"][data-server]`)
				asks := row.code || visit.selector == "#home-screen" // who came to that page may have a reason
				assert.Equal(t, asks, form.Length() == 1, visit.path)
				assert.Equal(t, asks, strings.Contains(panel.Text(), "may ask for a code"), visit.path)
				tell("yes", "kept")
				assert.Zero(t, part(t, owner.get(visit.path), visit.selector).Length(), "in the installed app")
				tell("", "refused")
				assert.Zero(t, part(t, owner.get(visit.path), "#install").Length(), "where the app cannot be kept")
			}
		})
	}
}

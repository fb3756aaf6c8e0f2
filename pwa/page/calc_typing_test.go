//go:build !js

package page_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"
	"time"

	"garlandry/app/job"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
	"garlandry/testdata/browsertest"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTypingKeepsItsPlaceInTheBrowser checks that a field keeps its focus, caret and text while results and messages
// come and go.
func TestTypingKeepsItsPlaceInTheBrowser(t *testing.T) {
	if _, err := exec.LookPath("chromium"); err != nil {
		t.Skip("needs chromium: apt-get install chromium, then go test ./pwa/page -run Typing")
	}
	patch, err := os.ReadFile("../../static/js/patch.js")
	require.NoError(t, err)
	own, err := os.ReadFile("../../static/js/own.js")
	require.NoError(t, err)
	covers, err := os.ReadFile("../../static/js/covers.js")
	require.NoError(t, err)
	modules := regexp.MustCompile(`(?m)^import .*$|^export `).
		ReplaceAllString(string(own)+string(covers)+string(patch), "")
	v := demo(t).visitor(job.Owner, "Dora")
	body := func(length string) string { return calcBody(t, v.world1(), length) }
	start, refused := body("10ft"), body("10 fot")
	alarmed := strings.Replace(body("10ft 6"), `<fieldset id="calc-units"`,
		`<div id="calc-wrong" class="wronglist" role="group" tabindex="-1"><p>Trouble.</p></div><fieldset id="calc-units"`, 1)
	answers, err := json.Marshal([]string{refused, alarmed, body("10ft 6in"), refused, start})
	require.NoError(t, err)

	browser := browsertest.Open(t, 2*time.Minute)
	type place struct {
		Focus, Text string
		Caret       int
		Result      bool
	}
	kept, err := chromedp.Run(
		browser,
		chromedp.Evaluate[[]place](modules+`
		document.body.innerHTML = "<main id=page></main>";
		document.querySelector("#page").innerHTML = `+quotedJS(t, start)+`;
		const field = document.querySelector("[name=length]");
		field.focus(); field.value = "10ft 6i"; field.setSelectionRange(4, 4);
		`+string(answers)+`.map((html) => {
			patch(document.querySelector("#page"), html, false);
			const now = document.activeElement;
			return { Focus: now.name || now.nodeName, Text: now.value || "", Caret: now.selectionStart ?? -1,
				Result: !!document.querySelector("#result svg") };
		})`),
	)
	require.NoError(t, err)
	require.Len(t, kept, 5)
	for i, got := range kept {
		assert.Equal(t, "length", got.Focus, "answer %d", i+1)
		assert.Equal(t, "10ft 6i", got.Text, "answer %d", i+1)
		assert.Equal(t, 4, got.Caret, "answer %d", i+1)
		assert.Equal(t, i != 0 && i != 3, got.Result, "answer %d", i+1)
	}
}

func calcBody(t *testing.T, w page.Deps, length string) string {
	r := page.Get(w, "/calc/clusters", form.Values{"length": {length}, "recipe": {"2x11@10"}})
	var b bytes.Buffer
	require.NoError(t, view.PageInside(r.Frame, r.Body).Render(&b))
	return b.String()
}

func quotedJS(t *testing.T, text string) string {
	quoted, err := json.Marshal(text)
	require.NoError(t, err)
	return string(quoted)
}

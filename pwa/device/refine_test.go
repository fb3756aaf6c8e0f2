package device_test

import (
	"strings"
	"testing"

	"garlandry/app/job"
	"garlandry/pwa/device"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestForecastIsRefinedInTheBackground checks that every page that mentions the forecast has it refined and is redrawn
// afterwards, and that all pages then agree, even if the clock page was never opened.
func TestForecastIsRefinedInTheBackground(t *testing.T) {
	w := newWorld(t)
	b := w.phone(job.Owner, "Dora")
	b.enter("/")
	at := "/jobs/" + idOf(t, b.newJob("p"))
	b.passTime(true)
	b.get(at)
	answer := func(page string) string {
		_, rest, found := strings.Cut(page, `id="clock-answer"`)
		require.True(t, found)
		sentence, _, _ := strings.Cut(rest, "</p>")
		return sentence
	}
	overview := b.await("a refined forecast", func(d device.Drawing) bool {
		return d.Path == at && d.Parts["page"] != ""
	}).Parts["page"]
	clock := b.get(at + "/clock").Parts["page"]
	assert.NotContains(t, clock, "at a first look…", "refined although this page was never opened")
	assert.Contains(t, clock, "Odds by then")
	assert.Equal(t, answer(overview), answer(clock))
}

// TestTheClockFollowsTicksFromTwoPhones checks that each phone's clock reflects the ticks of both.
func TestTheClockFollowsTicksFromTwoPhones(t *testing.T) {
	w := newWorld(t)
	dora := w.phone(job.Owner, "Dora")
	dora.enter("/")
	at := "/jobs/" + idOf(t, dora.newJob("p"))
	dora.sent()
	ines := w.phone(job.Lead, "Ines")
	ines.enter(at + "/clock")
	for _, key := range []string{"card/shop", "card/unload", "card/look"} {
		require.Contains(t, ines.get(at + "/clock").Parts["page"], strings.TrimPrefix(key, "card/"))
	}
	dora.tick("t1", at, "card/shop")
	dora.sent()
	ines.tick("t2", at, "card/look")
	ines.sent()
	for _, b := range []*tab{dora, ines} {
		b.get(at + "/clock")
		b.say("wake")
		b.passTime(true)
		d := b.await("both ticks", func(d device.Drawing) bool {
			page := d.Parts["page"]
			return d.Path == at+"/clock" && page != "" && !strings.Contains(page, "cards/shop") &&
				!strings.Contains(page, "cards/look")
		})
		b.passTime(false)
		assert.Contains(t, d.Parts["page"], "cards/unload")
	}
}

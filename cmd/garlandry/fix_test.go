package main

import (
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFixInTheBrowser applies a fix to a day that is too short. The job and the odds change, and one Undo restores
// both.
func TestFixInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	phone := newPhone(t, t.TempDir())
	phone.limit = 90 * time.Second // the plans of fixes take long where others use the processor
	at := server.address + phone.firstJob(server)
	// The odds stand in the sentence or below it. Those of the must-haves may be the same before and after.
	const answered = `(document.querySelector('#clock-answer').innerText
		.match(/(?:Tight: |Odds[^\n]*\n+)((?:Under )?\d+ %)/) || ['', ''])[1]`
	phone.open(at + "/clock?help=1")
	phone.ready()
	const planned = `!document.querySelector('#clock-answer').innerText.includes('first look') && `
	phone.until(planned + `document.querySelector('#fixes button.go')`)
	before := phone.text(answered)
	require.Regexp(t, `\d %`, before)
	name := strconv.Quote(phone.text(`document.querySelector('#fixes li button').innerText.split(':')[0]`))
	phone.tap(`#fixes li button`)
	phone.until(`document.querySelector('#flash').innerText.includes(` + name + `)`)
	phone.until(answered + ` !== ` + strconv.Quote(before))
	phone.until(`document.querySelector('#clock-answer').dataset.verdict === 'sure'`)
	assert.Regexp(t, `9\d %`, phone.text(answered))
	phone.tap(`#flash form button`)
	phone.until(`document.querySelector('#flash').innerText.includes('Undone')`)
	phone.until(planned + `document.querySelector('#clock-answer').dataset.verdict !== 'sure'`)
	// The search begins with the plan of the fix, so it may find another plan than before, but not one as good as that.
	assert.InDelta(t, percentIn(t, before), percentIn(t, phone.text(answered)), 20)
}

// percentIn returns the number of a percentage such as "30 %" or "Under 1 %".
func percentIn(t *testing.T, text string) float64 {
	t.Helper()
	n, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimPrefix(text, "Under "), " %"), 64)
	require.NoError(t, err, text)
	return n
}

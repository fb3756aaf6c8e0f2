package main

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFixInTheBrowser applies a fix to a day that is too short. The job and the odds change, and one Undo restores
// both.
func TestFixInTheBrowser(t *testing.T) {
	inBrowser(t)
	server := startServer(t, t.TempDir(), "", true)
	phone := newPhone(t, t.TempDir())
	at := server.address + phone.firstJob(server)
	odds := func() string {
		phone.until(`document.querySelector('#clock-answer .facts')`)
		return phone.text(`document.querySelectorAll('#clock-answer .facts dd')[1].innerText`)
	}
	phone.open(at + "/clock?help=1")
	phone.ready()
	phone.until(`document.querySelector('#fixes button.go')`)
	before := odds()
	require.Regexp(t, `\d %`, before)
	name := strconv.Quote(phone.text(`document.querySelector('#fixes li b').innerText`))
	phone.tap(`#fixes li button`)
	phone.until(`document.querySelector('#flash').innerText.includes(` + name + `)`)
	phone.until(`document.querySelectorAll('#clock-answer .facts dd')[1].innerText !== ` + strconv.Quote(before))
	phone.until(`document.querySelector('#clock-answer').dataset.verdict === 'sure'`)
	assert.Regexp(t, `9\d %`, odds())
	phone.tap(`#flash form button`)
	phone.until(`document.querySelector('#flash').innerText.includes('Undone')`)
	phone.until(`document.querySelectorAll('#clock-answer .facts dd')[1].innerText === ` + strconv.Quote(before))
	assert.NotEqual(t, "sure", phone.text(`document.querySelector('#clock-answer').dataset.verdict`))
}
